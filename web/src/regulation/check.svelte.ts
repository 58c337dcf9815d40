import { forgetCheck, keepCheck, keptCheck } from "../keep/check";
import type { CheckChoice, CheckView, FindingsView, FreshString, KeptCheck, KeptSoFar, PastCheck } from "../made/desk";
import type { Page } from "../page.svelte";
import { pictured } from "../parts/pictured";
import { Asking, type Unnumbered } from "../programme/asked";
import { Aloud } from "../sound/aloud";
import { Hearing } from "../sound/hearing.svelte";
import type { RegulationWords } from "../words/regulation";
import type { CheckAsk, CheckTell } from "./messages";
import { Attempts } from "../work/attempts.svelte";

/** A regulation check from its choices to its findings; it decides nothing that the listener could. */
export class Regulation extends Attempts {
  stage: "choose" | "listening" | "findings" = $state("choose");
  /** Minutes that there are; none is as many as it takes. */
  minutes: number | undefined = $state(undefined);
  /** Only these strings, where she chose them herself. */
  few: string[] | undefined = $state();
  /** Strings that she says are new, beside those of which the diary knows it. */
  alsoNew: string[] = $state([]);
  choice: CheckChoice | undefined = $state.raw();
  fresh: FreshString[] = $state.raw([]);
  checks: PastCheck[] = $state.raw([]);
  /** A check that was left. */
  left: { kept: KeptCheck; far: KeptSoFar } | undefined = $state.raw();

  view: CheckView | undefined = $state.raw();
  paused = $state(false);
  /** What a screen reader says next. */
  spoken = $state("");

  findings: FindingsView | undefined = $state.raw();
  /** The check of the diary that stands beside it, by its place. */
  beside: number | undefined = $state();
  /** The check of the diary that is shown, where it is not a new one. */
  shownPast: number | undefined = $state();
  pages: string[] = $state.raw([]);
  /** Whether it is in the diary. */
  written: "not yet" | "yes" | "no" = $state("not yet");
  words: RegulationWords | undefined;

  #page: Page;
  #kept: KeptCheck | undefined;
  readonly hearing: Hearing;
  readonly #aloud = new Aloud(
    () => this.hearing.context,
    (from, to) => void this.#ask({ do: "own sound", from, to }),
  );
  #lastSaid = "";
  /** Whether it was not she who paused it. */
  #pausedBySound = false;
  #asking = new Asking<CheckAsk, CheckTell>(() => {
    const worker = new Worker(new URL("./listener.ts", import.meta.url), { type: "module" });
    worker.addEventListener("message", ({ data }: MessageEvent<CheckTell>) => data.id === 0 && this.#told(data));
    return worker;
  });

  constructor(page: Page) {
    super();
    this.#page = page;
    void this.#restore();
    this.hearing = new Hearing({
      input: () => page.choices.input,
      first: () => page.closeSound(),
      take: (blocks, rateHz) => this.#ask({ do: "sound", blocks, rateHz }, [blocks]),
      gone: () => {
        if (this.stage !== "listening" || this.paused) return;
        this.#pausedBySound = true;
        void this.pause(true);
      },
      back: () => {
        if (this.stage === "listening" && this.#pausedBySound) void this.pause(false);
      },
    });
  }

  #ask(ask: Unnumbered<CheckAsk>, hand: Transferable[] = []): Promise<CheckTell> {
    return this.#asking.ask(ask, undefined, hand);
  }

  get shown() {
    return this.#page.shown;
  }

  get canSpeak(): boolean {
    return this.#aloud.canSpeak;
  }

  /** Strings that are new, by the diary and by her. */
  get newStrings(): string[] {
    return [...new Set([...this.fresh.map((one) => one.id), ...this.alsoNew])];
  }

  // ---- choosing ---------------------------------------------------------------------------------

  async #restore(): Promise<void> {
    const kept = keptCheck();
    if (!kept) return;
    try {
      const tell = await this.#ask({ do: "so far", kept });
      if (tell.is === "so far") this.left = { kept, far: tell.far };
    } catch {
      // of an earlier version of this page, or damaged
      forgetCheck();
    }
  }

  /** What there is to choose from, on her harp and in her time. */
  choose(): Promise<void> {
    return this.attempt(async () => {
      const harp = $state.snapshot(this.#page.choices.harp);
      const few = this.few && $state.snapshot(this.few);
      const tell = await this.#ask({ do: "choice", harp, few, minutes: this.minutes, shown: this.shown });
      if (tell.is === "choice") this.choice = tell.choice;
    });
  }

  /** What the diary knows. */
  look(): Promise<void> {
    return this.attempt(async () => {
      const harp = $state.snapshot(this.#page.choices.harp);
      const tell = await this.#ask({ do: "past", harp, at: now(), shown: this.shown });
      if (tell.is === "past") [this.fresh, this.checks] = [tell.fresh, tell.checks];
    });
  }

  forget(): void {
    this.left = undefined;
    forgetCheck();
  }

  // ---- the check --------------------------------------------------------------------------------

  begin(): Promise<void> {
    const { harp, a4Hz } = $state.snapshot(this.#page.choices);
    const ask = {
      harp,
      a4_hz: a4Hz,
      strings: topFirst(this.choice?.chosen ?? []),
      new: this.newStrings,
      discless: this.#page.evening?.tonight(harp) ?? [],
    };
    return this.#setOut({ ask, steps: [] });
  }

  /** Takes up what was left. */
  async goOn(): Promise<void> {
    const left = this.left;
    if (!this.hearing.listening) await this.hearing.listen();
    if (left && this.hearing.listening) await this.#setOut(left.kept);
  }

  #setOut(kept: KeptCheck): Promise<void> {
    return this.attempt(async () => {
      await this.look();
      const tell = await this.#ask({ do: "begin", kept, shown: this.shown });
      if (tell.is !== "view") return;
      this.#kept = kept;
      this.left = undefined;
      this.paused = false;
      this.stage = "listening";
      this.#seen(tell.view);
      this.hearing.stayAwake(true);
    });
  }

  async pause(is: boolean): Promise<void> {
    if (!is && !this.hearing.listening) await this.hearing.listen();
    if (!is && (!this.hearing.listening || this.hearing.soundTrouble)) return;
    if (!is) await this.hearing.context?.resume();
    if (!is) this.#pausedBySound = false;
    this.paused = is;
    await this.#ask({ do: "pause", is });
  }

  skip(): void {
    void this.#ask({ do: "skip" });
  }

  /** Judges what was read, now. */
  end(): Promise<void> {
    return this.judge(this.#kept);
  }

  judge(kept: KeptCheck | undefined): Promise<void> {
    return this.attempt(async () => {
      if (!kept) return;
      this.hearing.close();
      await this.#ask({ do: "leave" });
      // what was left lies there since another day, perhaps
      if (this.stage === "choose") await this.look();
      this.beside = this.checks.length > 0 ? this.checks.length - 1 : undefined;
      const tell = await this.#ask({ do: "judge", kept, at: now(), beside: this.beside, shown: this.shown });
      if (tell.is !== "findings") return;
      this.shownPast = undefined;
      this.written = "not yet";
      this.#found(tell.findings);
      await this.write();
    });
  }

  /** Shows a check of the diary. */
  judgePast(place: number): Promise<void> {
    return this.attempt(async () => {
      this.beside = place > 0 ? place - 1 : undefined;
      const tell = await this.#ask({ do: "judge past", place, beside: this.beside, shown: this.shown });
      if (tell.is !== "findings") return;
      this.shownPast = place;
      this.written = "yes";
      this.#found(tell.findings);
    });
  }

  // ---- what was found ---------------------------------------------------------------------------

  #found(findings: FindingsView): void {
    this.findings = findings;
    this.stage = "findings";
    scrollTo(0, 0);
    void this.#printable();
  }

  /** Another check beside it, or another language. */
  standBeside(place: number | undefined): Promise<void> {
    return this.attempt(async () => {
      this.beside = place;
      const tell = await this.#ask({ do: "beside", place, shown: this.shown });
      if (tell.is === "findings") this.findings = tell.findings;
      await this.#printable();
    });
  }

  async #printable(): Promise<void> {
    const { harp } = this.#page.choices;
    const { words, findings } = this;
    if (!words || !findings) return;
    // the report says of which harp and day it is, and whether anything is missing in it
    const day = new Date(findings.at).toLocaleDateString(this.#page.locale, { dateStyle: "long" });
    const read = words.readStrings(findings.strings.length, findings.read);
    const left = findings.left > 0 ? `; ${read}${words.notRead(findings.left)}` : "";
    const called = `${words.called[harp.kind](String(this.#page.strings.length))}, ${day}${left}`;
    const tell = await this.#ask({ do: "pages", called, shown: this.shown });
    if (tell.is === "pages") this.pages = tell.pages.map(pictured);
  }

  /** A file for whoever reckons on with it. */
  save(): Promise<void> {
    return this.attempt(async () => {
      const tell = await this.#ask({ do: "csv", shown: this.shown });
      if (tell.is !== "csv") return;
      const link = document.createElement("a");
      link.href = URL.createObjectURL(new Blob([tell.csv], { type: "text/csv" }));
      link.download = `regulation-${this.findings?.at.slice(0, 10) ?? ""}.csv`;
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
    });
  }

  /** Writes it into the diary; until it is there, it lies where checks under way lie. */
  async write(): Promise<void> {
    if (this.findings?.strings.length === 0) return forgetCheck();
    let made = false;
    await this.#page.keepMade(async (device, next) => {
      const tell = await this.#ask({ do: "record", device, next });
      made = tell.is === "record" && tell.line !== undefined;
      return tell.is === "record" ? tell.line : undefined;
    });
    this.written = made && this.#page.storeTrouble === undefined ? "yes" : "no";
    if (this.written === "yes") forgetCheck();
  }

  /** Back to the choices. */
  leave(): void {
    this.hearing.forget();
    void this.#ask({ do: "leave" });
    this.stage = "choose";
    this.view = undefined;
    this.findings = undefined;
    this.pages = [];
    this.#kept = undefined;
    void this.#restore();
    void this.look();
  }

  /** Other words from now on. */
  async show(): Promise<void> {
    if (this.stage === "listening") await this.#ask({ do: "show", shown: this.shown });
    if (this.stage === "findings") await this.standBeside(this.beside);
  }

  // ---- what the listener tells ------------------------------------------------------------------

  #told(tell: CheckTell): void {
    switch (tell.is) {
      case "view":
        if (tell.kept) {
          this.#kept = tell.kept;
          keepCheck(tell.kept);
        }
        return this.#seen(tell.view);
      case "level":
        return this.hearing.heard(tell.peak, tell.silentS);
      case "failed":
        this.trouble = tell.why;
        return;
      default:
        return;
    }
  }

  #seen(view: CheckView): void {
    this.view = view;
    if (this.stage !== "listening") return;
    if (view.word === "done") return void this.end();
    const said = this.words?.spoken(this.#page.choices.harp.kind, view) ?? "";
    if (said === this.#lastSaid) return;
    this.#lastSaid = said;
    this.spoken = said;
    if (this.#page.choices.voice) this.#aloud.say(said, this.#page.language);
  }
}

const now = () => new Date().toISOString();

/** The highest string first, as a technician works. */
const topFirst = (strings: string[]) => [...strings].reverse();
