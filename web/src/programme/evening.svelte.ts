import { forgetScore, keepScore, keptScores } from "../keep/scores";
import type { DisclessLine } from "../made/programme";
import type { HarpChoice } from "../made/tune";
import type { TouchUp } from "../keep/choices";
import type { Page } from "../page.svelte";
import { PEDALS } from "./diagram";
import { Piece, type Circumstances } from "./piece.svelte";
import { Planner } from "./planning";

/** Longest file that is read, as in the command. */
const LONGEST = 200_000_000;

export interface NotRead {
  name: string;
  why: string | undefined;
}

/** The evening: its pieces in order, and which of them is open. */
export class Evening {
  pieces: Piece[] = $state.raw([]);
  open: Piece | undefined = $state.raw();
  notRead: NotRead[] = $state.raw([]);
  keepTrouble: string | undefined = $state();
  #planner = new Planner();
  #page: Page;

  constructor(page: Page) {
    this.#page = page;
    void this.#restore();
  }

  #around = (): Circumstances => ({
    harp: $state.snapshot(this.#page.choices.harp),
    shown: this.#page.shown,
  });

  async #restore(): Promise<void> {
    for (const kept of await keptScores().catch(() => [])) {
      const piece = new Piece(kept, this.#planner, this.#around);
      piece.part = kept.part;
      piece.repeats = kept.repeats;
      piece.wished = kept.wished;
      piece.keptScore = true;
      await this.#add(piece);
    }
  }

  /** What strings without discs sound tonight: what the first piece wants of them. */
  tonight(harp: HarpChoice): [string, string][] {
    const wanted = harp.kind === "pedal" ? (this.pieces[0]?.pedals?.discless ?? []) : [];
    return wanted
      .filter((line) => line.movement === 1 && !line.in_a_rest && harp.unmoved.includes(line.string))
      .map((line) => [line.string, line.pitch]);
  }

  /** Strings without discs that a piece wants otherwise than they stand after all pieces before it. */
  retuned(place: number): DisclessLine[] {
    const stands = new Map<string, string>();
    for (const piece of this.pieces.slice(0, place)) {
      for (const line of piece.pedals?.discless ?? []) stands.set(line.string, line.pitch);
    }
    const wanted = this.pieces[place]?.pedals?.discless ?? [];
    const first = wanted.filter((line) => line.movement === 1 && !line.in_a_rest);
    return place === 0 ? [] : first.filter((line) => stands.get(line.string) !== line.pitch);
  }

  /** A touch-up of these strings alone, the pedals as the piece begins. */
  touchUp(place: number): TouchUp {
    const lines = this.retuned(place);
    const setting = this.pieces[place]?.pedals?.opening_setting;
    return {
      strings: lines.map((line) => line.string),
      setting: setting && PEDALS.map((pedal) => setting[pedal]),
      discless: lines.map((line) => [line.string, line.pitch]),
    };
  }

  async take(files: Iterable<File>): Promise<void> {
    this.notRead = [];
    for (const file of files) {
      if (file.size > LONGEST) {
        this.notRead = [...this.notRead, { name: file.name, why: undefined }];
        continue;
      }
      const bytes = new Uint8Array(await file.arrayBuffer());
      const sha256 = await hashed(bytes);
      await this.#add(new Piece({ name: file.name, bytes, sha256 }, this.#planner, this.#around));
    }
  }

  async #add(piece: Piece): Promise<void> {
    this.pieces = [...this.pieces, piece];
    const before = this.open;
    this.open = piece;
    try {
      await piece.open();
    } catch (error) {
      this.pieces = this.pieces.filter((other) => other !== piece);
      if (this.open === piece) this.open = before ?? this.pieces[0];
      this.notRead = [
        ...this.notRead,
        { name: piece.name, why: error instanceof Error ? error.message : String(error) },
      ];
    }
  }

  move(piece: Piece, by: 1 | -1): void {
    const at = this.pieces.indexOf(piece);
    const other = this.pieces[at + by];
    if (!other) return;
    this.pieces = this.pieces.with(at, other).with(at + by, piece);
    void this.keepAll();
  }

  remove(piece: Piece): void {
    this.pieces = this.pieces.filter((other) => other !== piece);
    if (this.open === piece) this.open = this.pieces[0];
    void this.#planner.ask({ do: "forget", key: piece.key }).catch(() => undefined);
    if (piece.keptScore) void forgetScore(piece.sha256);
  }

  /** Keeps the score in this browser, or no longer. */
  async keepScore(piece: Piece, wanted: boolean): Promise<void> {
    piece.keptScore = wanted;
    this.keepTrouble = undefined;
    try {
      if (wanted) await this.keepAll();
      else await forgetScore(piece.sha256);
    } catch (error) {
      piece.keptScore = false;
      this.keepTrouble = error instanceof Error ? error.message : String(error);
    }
  }

  /** Writes down every kept score with its place and wishes. */
  async keepAll(): Promise<void> {
    for (const [place, piece] of this.pieces.entries()) {
      if (!piece.keptScore) continue;
      const { sha256, name, bytes, part, repeats, wished } = piece;
      await keepScore({ sha256, name, bytes, part, repeats, wished: $state.snapshot(wished), place });
    }
  }

  /** Writes the plan that stands into the diary. */
  async keepPlan(piece: Piece): Promise<void> {
    const { harp } = this.#around();
    await piece.ready();
    await this.#page.keepMade(async (device, next) => {
      const of = { source: piece.name, sha256: piece.sha256, device, next, at: new Date().toISOString() };
      const tell = await this.#planner.ask({ do: "record", key: piece.key, of, harp });
      return tell.is === "record" ? tell.line : undefined;
    });
    piece.keptPlan = this.#page.storeTrouble === undefined;
  }
}

/** SHA-256 in hexadecimal digits; nothing where the page is not served safely, and nothing can be kept either. */
async function hashed(bytes: Uint8Array<ArrayBuffer>): Promise<string> {
  if (!("subtle" in crypto)) return "";
  const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, "0")).join("");
}
