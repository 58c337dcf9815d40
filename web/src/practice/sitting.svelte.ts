import type { EarAsk, EarChoice, EarKept, EarView, Practised, StudentView } from "../made/desk";
import type { Page } from "../page.svelte";
import { Asking, type Unnumbered } from "../programme/asked";
import type { Part } from "./part";
import { Hearing } from "../sound/hearing.svelte";
import type { EarStep, PracticeAsk, PracticeTell } from "./messages";
import { Attempts } from "../work/attempts.svelte";

/** Where the reader of the page is. */
export type PracticePlace = "choose" | "ear" | "made" | "beats" | "drills";

const DRILLS = ["octave", "unison", "fifth", "letter"] as const;
export type EarDrill = (typeof DRILLS)[number];
export const EAR_DRILLS: readonly EarDrill[] = DRILLS;

/** Practice: what is chosen, the strings tuned by ear, and what is kept of it all. */
export class Practice extends Attempts {
  place: PracticePlace = $state("choose");
  drill: EarDrill = $state("octave");
  octave = $state(4);
  letter = $state("C");
  choice: EarChoice | undefined = $state.raw();

  view: EarView | undefined = $state.raw();
  /** What was kept of this sitting, string by string. */
  tuned: EarKept[] = $state.raw([]);
  /** Whether the last string is done. */
  over = $state(false);
  /** Her own weeks, once she asked for them. */
  past: StudentView | undefined = $state.raw();
  readonly hearing: Hearing;

  readonly #page: Page;
  #begun = 0;
  #taken = false;
  #asking = new Asking<PracticeAsk, PracticeTell>(() => {
    const worker = new Worker(new URL("./practice-ear.ts", import.meta.url), { type: "module" });
    worker.addEventListener("message", ({ data }: MessageEvent<PracticeTell>) => data.id === 0 && this.#told(data));
    return worker;
  });

  constructor(page: Page) {
    super();
    this.#page = page;
    this.hearing = new Hearing({
      input: () => page.choices.input,
      first: () => page.closeSound(),
      take: (blocks, rateHz) => this.#ask({ do: "sound", blocks, rateHz }, [blocks]),
      // what is not heard is asked for again
      gone: () => {},
      back: () => {},
    });
  }

  #ask(ask: Unnumbered<PracticeAsk>, hand: Transferable[] = []): Promise<PracticeTell> {
    return this.#asking.ask(ask, undefined, hand);
  }

  // ---- choosing ---------------------------------------------------------------------------------

  get #asked(): EarAsk {
    const { harp, a4Hz } = $state.snapshot(this.#page.choices);
    return {
      harp,
      a4_hz: a4Hz,
      discless: this.#page.evening?.tonight(harp) ?? [],
      drill: this.drill,
      octave: this.octave,
      letter: this.letter,
    };
  }

  /** Where the drill can be practised on her harp. */
  choose(): Promise<void> {
    return this.attempt(async () => {
      const tell = await this.#ask({ do: "choice", ask: this.#asked, shown: this.#page.shown });
      if (tell.is !== "choice") return;
      this.choice = tell.choice;
      const { octaves } = tell.choice;
      // the octave nearest to the one that was chosen
      const near = [...octaves].sort((a, b) => Math.abs(a - this.octave) - Math.abs(b - this.octave))[0];
      if (near !== undefined && !octaves.includes(this.octave)) this.octave = near;
    });
  }

  // ---- by ear -----------------------------------------------------------------------------------

  begin(): Promise<void> {
    return this.attempt(async () => {
      if (!this.hearing.listening) await this.hearing.listen();
      if (!this.hearing.listening) return;
      const tell = await this.#ask({ do: "begin", ask: this.#asked, shown: this.#page.shown });
      if (tell.is !== "view") return;
      this.tuned = [];
      this.over = false;
      this.place = "ear";
      this.hearing.stayAwake(true);
      this.#seen(tell.view, true);
    });
  }

  step(step: EarStep): Promise<void> {
    return this.attempt(async () => {
      if (step.is === "next") await this.#take();
      const tell = await this.#ask({ do: "step", step });
      if (tell.is === "view") this.#seen(tell.view, step.is === "next");
      if (tell.is === "over") this.over = true;
    });
  }

  /** Ends it: what was tuned is kept. */
  end(): Promise<void> {
    return this.attempt(async () => {
      await this.#take();
      this.hearing.close();
      await this.#ask({ do: "leave" });
      this.over = true;
      this.view = undefined;
    });
  }

  /** Back to the choices. */
  leave(): void {
    this.hearing.forget();
    void this.#ask({ do: "leave" });
    this.place = "choose";
    this.view = undefined;
    this.tuned = [];
    this.over = false;
  }

  /** Other words from now on. */
  async show(): Promise<void> {
    if (this.view) await this.attempt(async () => void (await this.#ask({ do: "show", shown: this.#page.shown })));
    if (this.past) await this.look();
  }

  #seen(view: EarView, isNew: boolean): void {
    if (isNew) {
      this.#begun = performance.now();
      this.#taken = false;
    }
    this.view = view;
    if (view.stage === "known") void this.attempt(() => this.#take());
  }

  /** What came of this string, once. */
  async #take(): Promise<void> {
    if (this.#taken || !this.view || this.view.stage !== "known") return;
    this.#taken = true;
    const tell = await this.#ask({ do: "kept", tookS: (performance.now() - this.#begun) / 1000 });
    if (tell.is !== "kept" || !tell.kept) return;
    this.tuned = [...this.tuned, tell.kept];
    // string by string, so that a page that is closed loses none
    await this.keep({ took_s: tell.kept.took_s, by_ear: [tell.kept] }, true);
  }

  // ---- what is kept -----------------------------------------------------------------------------

  /** Writes what was practised into the diary. */
  keep(part: Part & { by_ear?: EarKept[] }, onHerHarp = false): Promise<void> {
    return this.attempt(async () => {
      const { took_s, by_ear = [], sizes = [], asked = [], counted = [] } = part;
      if (by_ear.length + sizes.length + asked.length + counted.length === 0) return;
      const harp = onHerHarp ? $state.snapshot(this.#page.choices.harp) : undefined;
      const practised: Practised = { harp, took_s, by_ear, sizes, asked, counted };
      const at = new Date().toISOString();
      await this.#page.keepMade(async (device, next) => {
        const tell = await this.#ask({ do: "record", place: { device, next, at }, practised });
        return tell.is === "record" ? tell.line : undefined;
      });
      // told anew when it is asked for again
      this.past = undefined;
    });
  }

  /** Her own weeks, from all of her diary. */
  look(): Promise<void> {
    return this.attempt(async () => {
      const aheadMin = -new Date().getTimezoneOffset();
      const tell = await this.#ask({ do: "past", aheadMin, shown: this.#page.shown });
      if (tell.is === "past") this.past = tell.past;
    });
  }

  // ---- what the Worker tells --------------------------------------------------------------------

  #told(tell: PracticeTell): void {
    switch (tell.is) {
      case "view":
        return this.#seen(tell.view, false);
      case "level":
        return this.hearing.heard(tell.peak, tell.silentS);
      case "failed":
        this.trouble = tell.why;
        return;
      default:
        return;
    }
  }
}
