import type {
  AheadAsk,
  AheadView,
  HarpView,
  HerIntervals,
  MonthShown,
  MovedView,
  PlotView,
  StepView,
  StringsAsk,
  StringWritten,
} from "../made/desk";
import type { Page } from "../page.svelte";
import { Asking, type Unnumbered } from "../programme/asked";
import { playedBy } from "./ahead";
import { rememberedIntervals, rememberIntervals } from "./intervals";
import { rememberSeen, seenLast } from "./last-seen";
import type { ReadAsk, ReadTell } from "./messages";

/** What the page Strings knows; it decides nothing that the reader could. */
export class Shelf {
  harps: string[] = $state.raw([]);
  /** The harp that is shown; none: the one chosen under Tune. */
  name: string | undefined = $state();
  harp: HarpView | undefined = $state.raw();
  months: MonthShown[] = $state.raw([]);
  /** The string that is open. */
  open: string | undefined = $state();
  plot: PlotView | undefined = $state.raw();
  steps: StepView[] = $state.raw([]);
  /** Where the strings will stand at the time that was chosen. */
  ahead: AheadView | undefined = $state.raw();
  /** The string of which it is told why. */
  aheadOpen: string | undefined = $state();
  /** What another pitch asks for. */
  moved: MovedView | undefined = $state.raw();
  intervals: HerIntervals = $state(rememberedIntervals());
  notRead = $state(0);
  trouble: string | undefined = $state();
  /** When what is shown was seen, while the diary is still being read. */
  asOf: string | undefined = $state();
  /** What was written last, to be said. */
  written: StringWritten | undefined = $state.raw();
  #page: Page;
  #asking = new Asking<ReadAsk, ReadTell>(
    () => new Worker(new URL("./reader.ts", import.meta.url), { type: "module" }),
  );

  constructor(page: Page) {
    this.#page = page;
  }

  #ask(ask: Unnumbered<ReadAsk>): Promise<ReadTell> {
    return this.#asking.ask(ask);
  }

  get #all(): StringsAsk {
    return {
      name: this.name,
      choice: $state.snapshot(this.#page.choices.harp),
      now: new Date().toISOString(),
      intervals: $state.snapshot(this.intervals),
      shown: this.#page.shown,
    };
  }

  /** Reads the diary, where it has grown, and looks at the harp. */
  async read(): Promise<void> {
    const start = performance.now();
    const last = this.harp ? undefined : seenLast(this.#all);
    if (last) {
      this.harp = last.harp;
      this.asOf = last.at;
      performance.measure("strings shown", { start });
    }
    const tell = await this.#told({ do: "open" });
    if (tell?.is !== "open") return;
    this.harps = tell.harps;
    this.notRead = tell.notRead;
    if (this.name !== undefined && !tell.harps.includes(this.name)) this.name = undefined;
    await this.look();
    performance.measure("strings opened", { start, detail: tell });
  }

  /** Reads the diary before anybody looks, so that what is seen first is as it is now. */
  async prepare(): Promise<void> {
    const tell = await this.#told({ do: "open" });
    const ask = this.#all;
    const told = tell && (await this.#told({ do: "harp", ask }));
    if (told?.is === "harp") rememberSeen(ask, told.harp);
    performance.mark("strings prepared");
  }

  /** The harp as it is now, and what is open of it. */
  async look(): Promise<void> {
    const ask = this.#all;
    const told = await this.#told({ do: "harp", ask });
    if (told?.is === "harp") {
      this.harp = told.harp;
      this.asOf = undefined;
      rememberSeen(ask, told.harp);
    }
    if (this.open !== undefined) await this.show(this.open);
    void this.#told({ do: "months", ask: this.#all }).then((tell) => {
      if (tell?.is === "months") this.months = tell.months;
    });
  }

  async show(string: string): Promise<void> {
    this.open = string;
    const told = await this.#told({ do: "plot", string, ask: this.#all });
    if (told?.is === "plot" && this.open === string) this.plot = told.plot;
    const steps = await this.#told({ do: "steps", string, ask: this.#all });
    if (steps?.is === "steps" && this.open === string) this.steps = steps.steps;
  }

  /** Where the strings will stand. */
  async foresee(when: Omit<AheadAsk, "played" | "all_played" | "a4_hz" | "open">): Promise<void> {
    const { played, all } = await playedBy(this.#page);
    const { a4Hz } = this.#page.choices;
    const ahead = { ...when, played, all_played: all, a4_hz: a4Hz, open: this.aheadOpen };
    const told = await this.#told({ do: "ahead", ahead, ask: this.#all });
    if (told?.is === "ahead") this.ahead = told.ahead;
  }

  /** What the whole harp at another pitch asks for, to be played then. */
  async move(hertz: number, at: string): Promise<void> {
    const { a4Hz, usualA4Hz } = this.#page.choices;
    const moved = { to_a4_hz: hertz, at, a4_hz: a4Hz, usual_a4_hz: usualA4Hz };
    const told = await this.#told({ do: "moved", moved, ask: this.#all });
    if (told?.is === "moved") this.moved = told.moved;
  }

  chooseIntervals(): void {
    rememberIntervals($state.snapshot(this.intervals));
    void this.look();
  }

  /** Writes records one after the other; the harp itself first, where the diary has none of it. */
  async write(...all: StringWritten[]): Promise<boolean> {
    const name = this.harp?.name;
    const isNew = name === undefined ? undefined : await this.#told({ do: "is new", harp: name });
    const first: StringWritten[] = isNew?.is === "is new" && isNew.isNew ? [{ what: "harp" }] : [];
    for (const what of [...first, ...all]) {
      const line = await this.#keep(what);
      if (line === undefined) return false;
      if ((await this.#told({ do: "open" })) === undefined) return false;
      this.written = what;
    }
    await this.look();
    return true;
  }

  async #keep(what: StringWritten): Promise<string | undefined> {
    let line: string | undefined;
    await this.#page.keepMade(async (device, next) => {
      const at = new Date().toISOString().replace(/\.\d+/, "");
      const place = { device, next, at, harp: this.name, choice: $state.snapshot(this.#page.choices.harp) };
      const told = await this.#told({ do: "written", place, what });
      line = told?.is === "line" ? told.line : undefined;
      return line;
    });
    return line;
  }

  async #told(ask: Unnumbered<ReadAsk>): Promise<ReadTell | undefined> {
    try {
      const tell = await this.#ask(ask);
      this.trouble = undefined;
      return tell;
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
      return undefined;
    }
  }
}

const shelves = new WeakMap<Page, Shelf>();

/** The shelf of a page: it is read once, and stays. */
export function shelfOf(page: Page): Shelf {
  const own = shelves.get(page) ?? new Shelf(page);
  shelves.set(page, own);
  return own;
}
