import { neighbour, type Neighbour } from "../keep/neighbour";
import type { Exchanged } from "../keep/settled";
import type {
  DiaryCheckView,
  Corrected,
  GivenView,
  GivingAsk,
  LeafView,
  ListedRound,
  RecordPlace,
  ShownChoice,
  Written,
} from "../made/desk";
import { Asking, type Unnumbered } from "../programme/asked";
import type { ShelfAsk, ShelfTell, ShelfWord, TakenIn } from "./messages";

/** Leaves that are shown at once. */
const PIECE = 40;
/** How often the page exchanges while it is seen, milliseconds. */
const EVERY_MS = 5 * 60_000;

type Ask = Unnumbered<ShelfAsk>;
type Told<Is extends ShelfTell["is"]> = Extract<ShelfTell, { is: Is }>;

/** What the book needs of the page. */
export interface Desk {
  readonly shown: ShownChoice;
  /** Whether nothing may be written by anyone but the round. */
  readonly busy: boolean;
  keepMade(make: (device: string, next: number) => Promise<string | undefined>): Promise<void>;
  /** Records came in; the browser's name may have changed. */
  changed(renamed: boolean): Promise<void>;
}

/** How long a round that begins waits for a piece that is on its way, milliseconds. */
const PATIENT_MS = 2_000;

/** The diary as the page shows it, and the exchange with the server beside it. */
export class Book {
  leaves: LeafView[] = $state.raw([]);
  of = $state(0);
  kinds: [string, number][] = $state.raw([]);
  kind: string | undefined = $state();
  reading = $state(false);
  check: DiaryCheckView | undefined = $state.raw();
  exchanged: Exchanged | undefined = $state.raw();
  exchanging = $state(false);
  /** Whether a server of this address keeps a diary; nothing while that was not asked. */
  neighbour: Neighbour | undefined = $state();
  imported: TakenIn | undefined = $state.raw();

  #desk: Desk;
  #worker: Worker | undefined;
  #shelf = new Asking<ShelfAsk, ShelfTell>(
    () => (this.#worker = new Worker(new URL("./shelf.ts", import.meta.url), { type: "module" })),
  );
  /** What was asked of the shelf, until it is answered. */
  #underWay: Promise<unknown> | undefined;
  #rests = false;
  #asked = 0;

  constructor(desk: Desk) {
    this.#desk = desk;
    setInterval(() => document.visibilityState === "visible" && void this.exchange(), EVERY_MS);
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "visible") void this.exchange();
    });
  }

  async #ask<Is extends ShelfTell["is"]>(ask: Ask, is: Is): Promise<Told<Is>> {
    const tell = await this.#shelf.ask(ask);
    if (tell.is !== is) throw new Error(tell.is);
    return tell as Told<Is>;
  }

  #say(word: ShelfWord): void {
    this.#worker?.postMessage(word);
  }

  // ---- reading ----------------------------------------------------------------------------------

  /** The page wrote records: what was read is read anew when it is looked at. */
  changed(): void {
    this.#say({ word: "changed" });
  }

  async rounds(): Promise<ListedRound[]> {
    return (await this.#ask({ do: "rounds" }, "rounds")).rounds;
  }

  /** The latest leaves of the kind that is chosen. */
  async look(): Promise<void> {
    const asked = ++this.#asked;
    this.reading = true;
    try {
      const { view } = await this.#leaves(0, Math.max(PIECE, this.leaves.length));
      if (asked !== this.#asked) return;
      [this.leaves, this.of, this.kinds] = [view.leaves, view.of, view.kinds];
    } finally {
      if (asked === this.#asked) this.reading = false;
    }
  }

  async more(): Promise<void> {
    const asked = ++this.#asked;
    const { view } = await this.#leaves(this.leaves.length, PIECE);
    if (asked === this.#asked) this.leaves = [...this.leaves, ...view.leaves];
  }

  choose(kind: string | undefined): Promise<void> {
    this.kind = kind;
    this.leaves = [];
    return this.look();
  }

  #leaves(after: number, count: number) {
    return this.#ask({ do: "leaves", kind: this.kind, after, count, shown: this.#desk.shown }, "leaves");
  }

  async lookThrough(): Promise<void> {
    this.check = (await this.#ask({ do: "check" }, "check")).check;
  }

  // ---- writing ----------------------------------------------------------------------------------

  /** What cannot be meant of what she wrote. */
  async wrong(written: Written): Promise<string[]> {
    return (await this.#ask({ do: "wrong", written }, "wrong")).wrong;
  }

  write(written: Written): Promise<void> {
    return this.#keep((place) => this.#ask({ do: "write", place, written }, "line"));
  }

  correct(corrected: Corrected): Promise<void> {
    return this.#keep((place) => this.#ask({ do: "correct", place, corrected }, "line"));
  }

  async #keep(line: (place: RecordPlace) => Promise<{ line: string }>): Promise<void> {
    await this.rest();
    try {
      await this.#desk.keepMade(async (device, next) => {
        const { line: made } = await line({ device, next, at: new Date().toISOString() });
        return made;
      });
    } finally {
      this.goOn();
    }
    this.changed();
    await this.look();
    void this.exchange();
  }

  // ---- files ------------------------------------------------------------------------------------

  async export(): Promise<Blob> {
    return (await this.#ask({ do: "export" }, "exported")).file;
  }

  /** What can be given to a teacher: kinds, those that are usual, harps. */
  giving(): Promise<{ groups: string[]; usual: string[]; harps: string[] }> {
    return this.#ask({ do: "giving" }, "giving");
  }

  async given(giving: GivingAsk, count: number): Promise<GivenView> {
    return (await this.#ask({ do: "given", giving, count, shown: this.#desk.shown }, "given")).given;
  }

  async givenFile(giving: GivingAsk): Promise<Blob> {
    return (await this.#ask({ do: "given file", giving }, "exported")).file;
  }

  async import(file: Blob): Promise<void> {
    this.imported = (await this.#ask({ do: "import", file }, "imported")).imported;
    await this.#desk.changed(false);
    void this.exchange();
  }

  // ---- the server beside it ---------------------------------------------------------------------

  async lastExchange(): Promise<void> {
    this.exchanged ??= (await this.#ask({ do: "last exchange" }, "exchanged")).exchanged;
  }

  /** Exchanges with the server, unless a round is under way or another exchange is. */
  exchange(insist = false): Promise<void> {
    if (this.exchanging || this.#desk.busy) return Promise.resolve();
    if (insist) this.goOn();
    this.exchanging = true;
    return this.#exchange(insist).finally(() => (this.exchanging = false));
  }

  async #exchange(insist: boolean): Promise<void> {
    this.neighbour = await neighbour(insist);
    if (this.neighbour !== "keeps one" || this.#desk.busy || this.#rests) return;
    const asked = this.#shelf.ask({ do: "exchange" });
    this.#underWay = asked.catch(() => undefined).finally(() => (this.#underWay = undefined));
    const tell = await asked;
    if (tell.is !== "exchanged") return;
    this.exchanged = tell.exchanged ?? this.exchanged;
    if (tell.news || tell.renamed) await this.#desk.changed(tell.renamed);
  }

  /** Breaks off what is under way, so that a round can have the next places. */
  async rest(): Promise<void> {
    this.#rests = true;
    this.#say({ word: "stop" });
    // a server that does not answer keeps nobody from tuning
    await Promise.race([this.#underWay, new Promise((resolve) => setTimeout(resolve, PATIENT_MS))]);
  }

  goOn(): void {
    this.#rests = false;
    this.#say({ word: "go on" });
  }
}
