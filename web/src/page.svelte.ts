import type { Book } from "./diary/book.svelte";
import { Shelved } from "./diary/shelved";
import type { ListedRound } from "./made/desk";
import type {
  DrawnHarp,
  Holding,
  KnownHarps,
  NamedString,
  PageAct,
  RoundChoice,
  SummaryView,
  TakenView,
  View,
} from "./made/tune";
import { PEDAL_47, remember, remembered, type Choices, type TouchUp } from "./keep/choices";
import { PLACES, type Place } from "./places";
import { askToPersist, isFull, Records } from "./keep/records";
import { holdThePen } from "./keep/writer";
import type { Practice } from "./practice/sitting.svelte";
import type { Evening } from "./programme/evening.svelte";
import type { Regulation } from "./regulation/check.svelte";
import { Aloud } from "./sound/aloud";
import type { Cue } from "./sound/cues";
import { Hearing } from "./sound/hearing.svelte";
import { inputs, openDemo, type Input } from "./sound/source";
import type { SoundTrouble } from "./sound/trouble";
import { Few } from "./work/few.svelte";
import { markBlocks, measurePluck } from "./work/measured";
import { cueOf, wordsOfView } from "./work/said";
import { browsers, english, wordsOf, type Words } from "./words";
import type { Ask, Tell } from "./work/messages";

/** How long the page is left alone when it was opened, before it exchanges with a server, milliseconds. */
const QUIET_MS = 2_000;

/** All that the page knows; it decides nothing that the engine could. */
export class Page {
  choices: Choices = $state(remembered());
  words: Words = $state(english);
  place: Place = $state("first");
  /** What stands behind the place in the address: a chapter of the guide. */
  behind = $state("");
  known: KnownHarps | undefined = $state();
  strings: NamedString[] = $state([]);
  view: View | undefined = $state();
  harp: DrawnHarp | undefined = $state();
  account = $state("");
  summary: SummaryView | undefined = $state();
  holding: Holding | undefined = $state();
  taken: TakenView | undefined = $state();
  rounds: ListedRound[] = $state.raw([]);
  /** What reads the diary, once something was to be read. */
  book: Book | undefined = $state.raw();
  /** What a screen reader says next. */
  spoken = $state("");
  inputs: Input[] = $state([]);
  isDemo = $state(false);
  storeTrouble: { full: boolean; why: string } | undefined = $state();
  secondTab = $state(false);
  engineTrouble: string | undefined = $state();
  persisted: boolean | undefined = $state();
  update: (() => void) | undefined = $state();
  touchUp: TouchUp | undefined = $state();
  readonly few = new Few();
  readonly hearing = new Hearing({
    input: () => this.choices.input,
    take: (blocks, rateHz) => this.#ask({ do: "sound", blocks, rateHz }, [blocks]),
    gone: () => {
      if (this.view?.phase === "listening") this.act({ act: "pause" });
    },
    // she goes on herself: her hands are at the harp
    back: () => {},
  });
  evening: Evening | undefined = $state.raw();
  regulation: Regulation | undefined = $state.raw();
  practice: Practice | undefined = $state.raw();
  /** Whether there is a round, seen or about to be. */
  underWay = $state(false);

  #engine: Worker;
  #records: Records | undefined;
  #opened: Promise<void>;
  #shelved = new Shelved(this);
  #aloud = new Aloud(
    () => this.hearing.context,
    (from, to) => this.#ask({ do: "own sound", from, to }),
  );
  #latest: { word: string; string: string | undefined } = { word: "", string: undefined };

  constructor() {
    this.#engine = new Worker(new URL("./work/engine.ts", import.meta.url), { type: "module" });
    this.#engine.onmessage = ({ data }: MessageEvent<Tell>) => this.#told(data);
    this.#engine.onerror = (event) => (this.engineTrouble = event.message);
    this.#opened = this.#open();
    void this.speak();
    addEventListener("hashchange", () => this.#arrive());
    document.addEventListener("visibilitychange", () => {
      if (document.visibilityState === "hidden") this.#ask({ do: "keep" });
    });
    addEventListener("pagehide", () => this.#ask({ do: "keep" }));
    this.#arrive();
  }

  get shown() {
    return {
      language: this.language,
      scientific: this.choices.scientific,
      other_side: this.choices.otherSide,
    };
  }

  get language() {
    return this.choices.language ?? browsers();
  }

  /** A string as it is called, from its name in files. */
  nameOf(id: string): string {
    return this.harp?.strings.find((s) => s.id === id)?.name ?? id;
  }

  /** The reader's own way of writing figures and dates in the page's language. */
  get locale(): string {
    return navigator.languages.find((tag) => tag.startsWith(this.language)) ?? this.language;
  }

  get canSpeak(): boolean {
    return this.#aloud.canSpeak;
  }

  get lost(): number {
    return this.view?.breaks ?? 0;
  }

  /** Takes over what was chosen. */
  async speak(): Promise<void> {
    this.words = await wordsOf(this.language);
    document.documentElement.lang = this.language;
    this.#ask({ do: "show", shown: this.shown });
  }

  chose(): void {
    remember($state.snapshot(this.choices));
    document.documentElement.dataset["tone"] = this.choices.tone;
  }

  /** The strings of the chosen harp, by name. */
  askStrings(): void {
    this.#ask({ do: "strings of", harp: $state.snapshot(this.choices.harp) });
  }

  go(place: Place): void {
    location.hash = place === "first" ? "" : `#${place}`;
  }

  #arrive(): void {
    const [asked, ...behind] = location.hash.slice(1).split("/");
    let place: Place = PLACES.find((known) => known === asked) ?? "first";
    // a round and its end stand only while there is one
    if (place === "round" && !this.underWay) place = "first";
    if (place === "end" && !this.summary) place = "first";
    this.place = place;
    this.behind = behind.join("/");
    if (place === "diary") void this.lookIntoDiary();
    if (place === "before") void this.#foresee();
  }

  // ---- sound ------------------------------------------------------------------------------------

  get listening(): boolean {
    return this.hearing.listening;
  }

  get level(): number {
    return this.hearing.level;
  }

  get soundTrouble(): SoundTrouble | undefined {
    return this.hearing.soundTrouble;
  }

  async listen(): Promise<void> {
    await this.hearing.listen();
    if (!this.listening) return;
    this.inputs = await inputs();
    this.#ask({ do: "levels", wanted: true });
    this.isDemo = false;
  }

  closeSound(): void {
    this.hearing.close();
    this.#ask({ do: "levels", wanted: false });
  }

  // ---- the round --------------------------------------------------------------------------------

  get choice(): RoundChoice {
    const c = $state.snapshot(this.choices) as Choices;
    const touchUp = $state.snapshot(this.touchUp);
    return {
      harp: c.harp,
      a4_hz: c.a4Hz,
      usual_a4_hz: c.usualA4Hz,
      order: c.order,
      middle_cents: c.middleCents,
      outer_cents: c.outerCents,
      touch_up: touchUp?.strings,
      setting: touchUp?.setting,
      discless: touchUp?.discless ?? this.evening?.tonight(c.harp) ?? [],
    };
  }

  /** Where there are only some minutes: the diary is read while she sets up the microphone. */
  async #foresee(): Promise<void> {
    this.few.rest();
    const minutes = $state.snapshot(this.few.minutes);
    if (!minutes || this.underWay) return;
    const choice = this.choice;
    const { played, all } = (await this.evening?.played()) ?? { played: [], all: true };
    const ask = {
      choice,
      now: new Date().toISOString(),
      temperature_c: minutes.temperatureC,
      humidity_percent: minutes.humidityPercent,
      played,
      all_played: all,
    };
    this.few.foresee(ask, (foreseen) => {
      if (this.underWay) this.#ask({ do: "foreseen", foreseen });
    });
  }

  async begin(): Promise<void> {
    await this.#opened;
    await this.#shelved.rest();
    this.isDemo = false;
    const records = this.#records;
    const next = (await records?.next()) ?? 1;
    // looked at last: what is foreseen behind this finds the round under way, and is told to it
    const few = this.few.beginning;
    this.#ask({
      do: "begin",
      choice: this.choice,
      device: records?.device ?? "page",
      next,
      ...(few && { few }),
    });
    this.#setOut();
    this.persisted = await askToPersist();
  }

  async demo(): Promise<void> {
    const source = await openDemo();
    this.isDemo = true;
    const choice: RoundChoice = {
      ...this.choice,
      harp: PEDAL_47,
      a4_hz: 442,
      usual_a4_hz: undefined,
      touch_up: undefined,
      setting: undefined,
      discless: [],
    };
    await this.hearing.take(source);
    this.#ask({ do: "begin", choice, device: "demo", next: 1 });
    this.#setOut();
  }

  async takeUp(): Promise<void> {
    await this.#opened;
    const records = this.#records;
    if (!records) return;
    await this.#shelved.rest();
    this.isDemo = false;
    if (!this.listening) await this.listen();
    this.#ask({ do: "take up", lines: await records.lines(), device: records.device, next: await records.next() });
    this.#setOut();
  }

  #setOut(): void {
    this.#ask({ do: "levels", wanted: true });
    this.view = undefined;
    this.few.setOut();
    this.summary = undefined;
    this.underWay = true;
    this.hearing.stayAwake(true);
    location.hash = "#round";
    this.place = "round";
  }

  act(act: PageAct): void {
    this.#ask({ do: "act", act });
    if (act.act === "finish") {
      this.#ask({ do: "sum up" });
      this.hearing.stayAwake(false);
    }
  }

  /** Pause, or go on; with a new microphone where the old one is gone. */
  async pauseOrGoOn(): Promise<void> {
    if (this.view?.phase === "listening") return this.act({ act: "pause" });
    if (!this.listening && !this.isDemo) await this.listen();
    if (this.soundTrouble) return;
    await this.hearing.context?.resume();
    this.act({ act: "resume" });
  }

  /** Back to the beginning, after the end. */
  leave(): void {
    this.closeSound();
    this.#ask({ do: "leave" });
    this.view = undefined;
    this.few.leave();
    this.summary = undefined;
    this.underWay = false;
    this.harp = undefined;
    this.touchUp = undefined;
    if (this.#records) void this.#shelved.exchange();
    this.go("first");
  }

  settle(place: number): void {
    this.#ask({ do: "settle", place });
  }

  fit(width: number, height: number, unit: number): void {
    this.#ask({ do: "box", width, height, unit });
  }

  // ---- take the A -------------------------------------------------------------------------------

  async takeA(note: string): Promise<void> {
    this.taken = undefined;
    this.holding = undefined;
    if (!this.listening) await this.listen();
    if (!this.listening) return;
    this.#ask({ do: "take the A", note, usualHz: this.choices.usualA4Hz });
    this.holding = { held_s: 0, of_s: 3, hz: undefined };
  }

  endTheA(): void {
    this.#ask({ do: "end the A" });
  }

  // ---- the diary --------------------------------------------------------------------------------

  async #open(): Promise<void> {
    const pen = holdThePen();
    // a lock that is free is had at once
    await new Promise((resolve) => setTimeout(resolve, 60));
    this.secondTab = !pen.free;
    await pen.held;
    this.secondTab = false;
    try {
      this.#records = await Records.open();
      // what reads a diary is not loaded for an empty one
      if (!(await this.#records.isEmpty())) void this.#readAhead();
      // what she opened the page for comes first
      setTimeout(() => void this.#shelved.exchange(), QUIET_MS);
    } catch (error) {
      this.#cannotStore(error);
    }
  }

  /** Two that read at once would both wait for the browser's database: what she sees comes first. */
  async #readAhead(): Promise<void> {
    const isStrings = this.place === "strings";
    if (isStrings) await this.#prepare();
    await this.lookIntoDiary();
    if (!isStrings) await this.#prepare();
  }

  /** What the page Strings shows is read once what was written last is kept. */
  async #prepare(): Promise<void> {
    await this.#records?.next();
    // it can be read when she goes there
    await this.#shelved.prepare().catch(() => undefined);
  }

  /** Whether nobody but the round may write. */
  get busy(): boolean {
    return this.underWay || this.secondTab;
  }

  /** Records came in; the name of this browser may be a new one. */
  async changed(renamed: boolean): Promise<void> {
    if (renamed) await this.#records?.renamed();
    await this.#readAhead();
  }

  async lookIntoDiary(): Promise<void> {
    if (this.#records) await this.#shelved.look();
  }

  /** Adds a record that is made for its place; while a round is under way the engine has the next places. */
  async keepMade(make: (device: string, next: number) => Promise<string | undefined>): Promise<void> {
    const records = this.#records;
    if (!records || this.underWay) return;
    const line = await make(records.device, await records.next());
    if (line !== undefined) await this.#keep([line]);
  }

  async #keep(lines: string[]): Promise<void> {
    if (this.isDemo || lines.length === 0) return;
    try {
      await this.#records?.append(lines);
      this.book?.changed();
      this.storeTrouble = undefined;
    } catch (error) {
      this.#cannotStore(error);
    }
  }

  #cannotStore(error: unknown): void {
    this.storeTrouble = { full: isFull(error), why: error instanceof Error ? error.message : String(error) };
  }

  // ---- what the engine tells --------------------------------------------------------------------

  #ask(ask: Ask, hand: Transferable[] = []): void {
    this.#engine.postMessage(ask, hand);
  }

  #told(tell: Tell): void {
    switch (tell.is) {
      case "ready":
        return this.#ask({ do: "show", shown: this.shown });
      case "harps":
        this.known = tell.known;
        return this.askStrings();
      case "strings":
        this.strings = tell.strings;
        return;
      case "view":
        this.view = tell.view;
        this.harp = tell.harp;
        this.account = tell.account;
        this.few.show(tell.few);
        return this.#cue(tell.view);
      case "heard":
        if (tell.said.length > 0) this.spoken = tell.said.map((said) => said.words).join(" ");
        if (tell.cameMs !== undefined) measurePluck(tell.cameMs, tell.heard[0]?.string ?? "");
        return;
      case "records":
        void this.#keep(tell.lines);
        return;
      case "level":
        // the invented harp may rest as long as it likes
        this.hearing.heard(tell.peak, this.isDemo ? 0 : tell.silentS);
        return;
      case "holding":
        this.holding = tell.holding;
        return;
      case "taken":
        this.taken = tell.taken;
        this.holding = undefined;
        return;
      case "summary":
        this.summary = tell.summary;
        if (!this.isDemo) void this.#prepare();
        this.go("end");
        return;
      case "blocks":
        return markBlocks(tell);
      case "trouble":
        this.engineTrouble = tell.words;
        return;
    }
  }

  // ---- the page's own sound ---------------------------------------------------------------------

  /** A tone or a word for what a string's last word says; the samples in which it may be heard are marked. */
  #cue(view: View): void {
    const isHeard = view.phase === "listening";
    const speaks = this.choices.voice && isHeard;
    const news = this.few.news();
    const latest = { word: `${view.word.kind} ${view.word.off_cents ?? ""}`, string: view.string?.id };
    if (latest.word === this.#latest.word && latest.string === this.#latest.string) {
      if (speaks && news) this.say(news);
      return;
    }
    this.#latest = latest;
    const cue = cueOf(view);
    if (cue && isHeard && this.choices.cues) this.tones(cue);
    const said = speaks ? wordsOfView(view, this.few.view, news, this.words.spoken) : "";
    if (said) this.say(said);
  }

  tones(cue: Cue): void {
    this.#aloud.tones(cue);
  }

  say(words: string): void {
    this.#aloud.say(words, this.language);
  }
}
