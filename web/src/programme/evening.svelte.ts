import { forgetPaper, keepPaper, keptPapers } from "../keep/papers";
import { forgetScore, keepScore, keptScores, type KeptScore } from "../keep/scores";
import type { BeforeLine } from "../made/programme";
import type { HarpChoice } from "../made/tune";
import type { TouchUp } from "../keep/choices";
import type { Page } from "../page.svelte";
import { PEDALS } from "./diagram";
import { OnPaper, type Typed } from "./on-paper.svelte";
import { Piece, type Circumstances } from "./piece.svelte";
import { Planner } from "./planning";

/** Longest file that is read, as in the command. */
const LONGEST = 200_000_000;

export interface NotRead {
  name: string;
  why: string | undefined;
}

/** A piece of the evening: a score that is planned, or a part on paper. */
export type EveningPiece = Piece | OnPaper;

/** The evening: its pieces in order, and which of them is open. */
export class Evening {
  pieces: EveningPiece[] = $state.raw([]);
  open: EveningPiece | undefined = $state.raw();
  notRead: NotRead[] = $state.raw([]);
  keepTrouble: string | undefined = $state();
  /** Why what was typed could not be kept. */
  paperTrouble: string | undefined = $state();
  /** A part on paper that was just taken out, and from where: what was typed is not lost by one touch. */
  takenOut: { paper: OnPaper; place: number } | undefined = $state.raw();
  /** What is set and turned before each piece. */
  before: BeforeLine[] = $state.raw([]);
  /** What a part is called that has no title. */
  unnamed = $state("");
  #planner = new Planner();
  /** For what is read while she types: it is never ended, and no plan stands before it. */
  #reader = new Planner();
  #page: Page;
  #turn = 0;
  /** Until all is back in its place, none is written down anew. */
  #restored = $state(false);

  constructor(page: Page) {
    this.#page = page;
    void this.#restore();
  }

  #around = (): Circumstances => ({
    harp: $state.snapshot(this.#page.choices.harp),
    shown: this.#page.shown,
  });

  /** Reads what is typed, keeps it and reckons the evening, as long as the page. Begun outside of any other effect. */
  #watch(): void {
    $effect.root(() => {
      $effect(() => {
        for (const piece of this.#papers()) void piece.readBy(this.#reader, this.#around);
      });
      $effect(() => void this.#keepPapers());
      $effect(() => void this.#reckon());
    });
  }

  #papers(): OnPaper[] {
    return this.pieces.filter((piece) => piece instanceof OnPaper);
  }

  async #restore(): Promise<void> {
    const scores = await keptScores().catch(() => []);
    const papers = await keptPapers().catch(() => []);
    this.#watch();
    const all = [...scores, ...papers].sort((one, other) => one.place - other.place);
    for (const kept of all) {
      if ("typed" in kept) this.#put(new OnPaper(() => this.unnamed, kept.typed, kept.key));
      else await this.#restoreScore(kept);
    }
    this.#restored = true;
    await this.keepAll();
  }

  async #restoreScore(kept: KeptScore): Promise<void> {
    const piece = new Piece(kept, this.#planner, this.#around);
    piece.part = kept.part;
    piece.repeats = kept.repeats;
    piece.wished = kept.wished;
    piece.keptScore = true;
    await this.#add(piece);
  }

  /** What is done before each piece, by how each begins and ends. */
  async #reckon(): Promise<void> {
    const pieces = this.pieces.map((piece) => piece.ends);
    const { harp, shown } = this.#around();
    const turn = ++this.#turn;
    if (pieces.length < 2 || harp.kind === "lever") {
      this.before = [];
      return;
    }
    const ask = { do: "evening", evening: { pieces }, harp, shown } as const;
    const tell = await this.#reader.ask(ask).catch(() => undefined);
    if (turn === this.#turn) this.before = tell?.is === "evening" ? tell.evening.before : [];
  }

  /** What strings without discs sound tonight: what the first piece wants of them. */
  tonight(harp: HarpChoice): [string, string][] {
    const wanted = harp.kind === "pedal" ? (this.pieces[0]?.ends?.discless ?? []) : [];
    return wanted
      .filter((line) => line.movement === 1 && !line.in_a_rest && harp.unmoved.includes(line.string))
      .map((line) => [line.string, line.pitch]);
  }

  /** How much each string is played tonight, piece by piece, as far as that is known. */
  async played(): Promise<{ played: [string, number][][]; all: boolean }> {
    const each = this.pieces.map((piece) => piece.played(this.#reader, this.#around).catch(() => []));
    const played = await Promise.all(each);
    // a part on paper names only what she calls exposed
    const isWhole = (piece: EveningPiece, place: number) => piece.kind === "score" && (played[place]?.length ?? 0) > 0;
    return { played, all: this.notRead.length === 0 && this.pieces.every(isWhole) };
  }

  /** A touch-up of what is turned before a piece, the pedals as it begins. */
  touchUp(place: number): TouchUp {
    const lines = this.before[place]?.turned ?? [];
    const setting = this.pieces[place]?.ends?.opening_setting;
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

  /** A part on paper, to be typed. */
  write(typed?: Typed): OnPaper {
    const paper = new OnPaper(() => this.unnamed, typed);
    this.#put(paper);
    return paper;
  }

  #put(piece: EveningPiece): void {
    this.pieces = [...this.pieces, piece];
    this.open = piece;
  }

  async #add(piece: Piece): Promise<void> {
    const before = this.open;
    this.#put(piece);
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

  move(piece: EveningPiece, by: 1 | -1): void {
    const at = this.pieces.indexOf(piece);
    const other = this.pieces[at + by];
    if (!other) return;
    this.pieces = this.pieces.with(at, other).with(at + by, piece);
    void this.keepAll();
  }

  remove(piece: EveningPiece): void {
    const place = this.pieces.indexOf(piece);
    this.pieces = this.pieces.filter((other) => other !== piece);
    if (this.open === piece) this.open = this.pieces[0];
    if (piece instanceof OnPaper) {
      this.takenOut = { paper: piece, place };
      void forgetPaper(piece.key).catch(() => undefined);
      void this.keepAll();
      return;
    }
    void this.#planner.ask({ do: "forget", key: piece.key }).catch(() => undefined);
    if (piece.keptScore) void forgetScore(piece.sha256);
    void this.keepAll();
  }

  /** Puts back the part on paper that was taken out last. */
  putBack(): void {
    if (!this.takenOut) return;
    const { paper, place } = this.takenOut;
    this.takenOut = undefined;
    this.pieces = this.pieces.toSpliced(place, 0, paper);
    this.open = paper;
    void this.keepAll();
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
      if (piece instanceof OnPaper || !piece.keptScore) continue;
      const { sha256, name, bytes, part, repeats, wished } = piece;
      await keepScore({ sha256, name, bytes, part, repeats, wished: $state.snapshot(wished), place });
    }
  }

  /** Keeps what was typed, at every change of it: it is in no file. */
  async #keepPapers(): Promise<void> {
    const papers = this.pieces.flatMap((piece, place) =>
      piece instanceof OnPaper ? [{ piece, kept: { key: piece.key, typed: piece.typed, place } }] : [],
    );
    if (!this.#restored) return;
    try {
      for (const { piece, kept } of papers) {
        if (this.pieces.includes(piece)) await keepPaper(kept);
      }
      this.paperTrouble = undefined;
    } catch (error) {
      this.paperTrouble = error instanceof Error ? error.message : String(error);
    }
  }

  /** Writes a part on paper into the diary, as it was typed. */
  async keepPaper(piece: OnPaper): Promise<void> {
    const { harp } = this.#around();
    const { text, stuck, missing, dead } = piece.typed;
    const sha256 = await hashed(new TextEncoder().encode(text));
    await this.#page.keepMade(async (device, next) => {
      const of = { source: piece.title, sha256, device, next, at: new Date().toISOString() };
      const tell = await this.#reader.ask({ do: "paper-record", of, paper: { text, stuck, missing, dead }, harp });
      return tell.is === "record" ? tell.line : undefined;
    });
    piece.keptPlan = this.#page.storeTrouble === undefined;
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
