import type {
  Held,
  Hold,
  LeverAnswer,
  OtherWay,
  PieceEnds,
  PlanAnswer,
  PlanWishes,
  ScoreLine,
} from "../made/programme";
import type { HarpChoice, ShownChoice } from "../made/tune";
import { Stopped } from "./asked";
import { Engraving } from "./engraving.svelte";
import type { Planner } from "./planning";

/** How she wants a piece planned, and what she chose of its changes. */
export interface Wished {
  wishes: PlanWishes;
  choices: Held[];
}

export type Doing = "reading" | "planning" | "fastest" | "asking";

/** What is chosen elsewhere and every plan needs. */
export interface Circumstances {
  harp: HarpChoice;
  shown: ShownChoice;
}

/** After so long without a new wish the slow question is asked: how fast the feet keep up. */
const IDLE_MS = 1200;

/** One piece of the evening. */
export class Piece {
  readonly kind = "score";
  readonly key = crypto.randomUUID();
  readonly name: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly sha256: string;
  readonly engraving: Engraving;

  score: ScoreLine | undefined = $state.raw();
  part: string | undefined = $state();
  repeats = $state(true);
  wished: Wished | undefined = $state.raw();
  pedals: PlanAnswer | undefined = $state.raw();
  levers: LeverAnswer | undefined = $state.raw();
  factor: number | undefined = $state();
  factorKnown = $state(false);
  tookMs = $state(0);
  doing: { what: Doing; since: number; done: number; of: number } | undefined = $state.raw();
  trouble: string | undefined = $state();
  stopped = $state(false);
  keptScore = $state(false);
  keptPlan = $state(false);
  /** Where she looks: a bar's setting by its place, and a change, if one is chosen. */
  at = $state(0);
  change: number | undefined = $state();
  why: { change: number; ways: OtherWay[] } | undefined = $state.raw();

  #planner: Planner;
  #around: () => Circumstances;
  #past: Wished[] = [];
  #future: Wished[] = [];
  canUndo = $state(false);
  canRedo = $state(false);
  #turn = 0;
  #generation = -1;
  #idle: ReturnType<typeof setTimeout> | undefined;

  constructor(
    file: { name: string; bytes: Uint8Array<ArrayBuffer>; sha256: string },
    planner: Planner,
    around: () => Circumstances,
  ) {
    this.name = file.name;
    this.bytes = file.bytes;
    this.sha256 = file.sha256;
    this.#planner = planner;
    this.#around = around;
    this.engraving = new Engraving(async (from, until) => {
      await this.ready();
      const tell = await this.#planner.ask({ do: "music", key: this.key, from, until });
      return tell.is === "music" ? tell.music : undefined;
    });
  }

  get title(): string {
    return this.score?.title || this.name.replace(/\.(musicxml|xml|mxl|midi?)$/i, "");
  }

  /** How it begins and ends by its plan; nothing on a lever harp. */
  get ends(): PieceEnds | undefined {
    if (!this.pedals) return undefined;
    const { opening_setting, ending_setting, discless } = this.pedals;
    return { opening_setting, ending_setting, discless };
  }

  /** How much each string is played, by its plan. */
  async played(): Promise<[string, number][]> {
    if (!this.pedals && !this.levers) return [];
    await this.ready();
    const tell = await this.#planner.ask({ do: "played", key: this.key });
    return tell.is === "played" ? tell.played : [];
  }

  /** Reads it and plans it; throws why it cannot be read. */
  async open(): Promise<void> {
    this.#begin("reading");
    try {
      this.wished ??= { wishes: await this.#planner.usual(), choices: [] };
      await this.#read();
    } finally {
      this.doing = undefined;
    }
    await this.plan();
  }

  async #read(): Promise<void> {
    this.#generation = this.#planner.generation;
    const { part, repeats, bytes, key } = this;
    const tell = await this.#planner.ask({ do: "read", key, bytes, part, repeats });
    if (tell.is === "read") this.score = tell.score;
  }

  /** Where the planner was ended meanwhile, it has read and planned nothing: it does so again. */
  async ready(): Promise<void> {
    if (this.#generation === this.#planner.generation || !this.pedals || !this.wished) return;
    // both are asked at once, so that nothing else comes between them
    const read = this.#read();
    const { harp, shown } = this.#around();
    const plan = this.#planner.ask({ do: "plan", key: this.key, harp, wishes: planned(this.wished), shown });
    await Promise.all([read, plan]);
  }

  /** Another part, or repeats otherwise. */
  async readAgain(): Promise<void> {
    this.engraving.forget();
    this.#generation = -1;
    this.at = 0;
    this.change = undefined;
    await this.plan();
  }

  // ---- planning ---------------------------------------------------------------------------------

  async plan(): Promise<void> {
    const turn = ++this.#turn;
    clearTimeout(this.#idle);
    // what is asked on the side must not be waited for
    if (this.doing && this.doing.what !== "reading") this.#planner.end();
    this.#begin("planning");
    this.stopped = false;
    this.trouble = undefined;
    this.factorKnown = false;
    this.keptPlan = false;
    this.why = undefined;
    try {
      if (this.#generation !== this.#planner.generation) await this.#read();
      const { harp, shown } = this.#around();
      const wishes = planned(this.wished as Wished);
      const tell = await this.#planner.ask({ do: "plan", key: this.key, harp, wishes, shown });
      if (turn !== this.#turn || tell.is !== "plan") return;
      this.pedals = tell.pedals;
      this.levers = tell.levers;
      this.tookMs = tell.tookMs;
      this.change = this.#again(this.change);
      this.at = Math.min(this.at, Math.max(0, (tell.pedals?.settings.length ?? 1) - 1));
      this.engraving.show(this.score?.engraved ? this.score.bars.length : 0, tell.pedals);
      this.doing = undefined;
      if (tell.pedals) this.#idle = setTimeout(() => void this.#fastest(), IDLE_MS);
    } catch (error) {
      if (turn === this.#turn) this.#failed(error);
    }
  }

  /** How fast it may go: asked when nothing else is, and dropped for the next plan. */
  async #fastest(): Promise<void> {
    const turn = this.#turn;
    this.#begin("fastest");
    try {
      await this.ready();
      const tell = await this.#planner.ask({ do: "fastest", key: this.key });
      if (turn !== this.#turn || tell.is !== "fastest") return;
      this.factor = tell.factor;
      this.factorKnown = true;
      this.doing = undefined;
    } catch (error) {
      if (turn === this.#turn) this.#failed(error, false);
    }
  }

  stop(): void {
    this.#planner.end();
  }

  #begin(what: Doing): void {
    this.doing = { what, since: performance.now(), done: 0, of: 0 };
  }

  #failed(error: unknown, told = true): void {
    this.doing = undefined;
    if (error instanceof Stopped) this.stopped = told;
    else this.trouble = error instanceof Error ? error.message : String(error);
  }

  /** The same change in a new plan, if it is there. */
  #again(change: number | undefined): number | undefined {
    const wanted = this.#wanted;
    this.#wanted = undefined;
    if (wanted) {
      const same = ({ place, pedal }: PlanAnswer["changes"][number]) =>
        pedal === wanted.pedal && place.measure === wanted.place.measure && place.beat === wanted.place.beat;
      const found = this.pedals?.changes.findIndex(same) ?? -1;
      return found < 0 ? undefined : found;
    }
    return change !== undefined && this.pedals?.changes[change] ? change : undefined;
  }
  #wanted: Held | undefined;

  // ---- wishes -----------------------------------------------------------------------------------

  wish(change: (wished: Wished) => Wished): void {
    if (!this.wished) return;
    this.#past.push(this.wished);
    this.#future = [];
    this.#set(change(this.wished));
  }

  undo(): void {
    const before = this.#past.pop();
    if (!before || !this.wished) return;
    this.#future.push(this.wished);
    this.#set(before);
  }

  redo(): void {
    const after = this.#future.pop();
    if (!after || !this.wished) return;
    this.#past.push(this.wished);
    this.#set(after);
  }

  #set(wished: Wished): void {
    this.wished = wished;
    this.canUndo = this.#past.length > 0;
    this.canRedo = this.#future.length > 0;
    void this.plan();
  }

  /** Moves, keeps or forbids a change; the newer choice takes the place of one about the same change. */
  async hold(change: number, hold: Hold): Promise<void> {
    const { shown } = this.#around();
    const line = this.pedals?.changes[change];
    await this.ready();
    const tell = await this.#planner.ask({ do: "held", key: this.key, change, hold, shown });
    if (tell.is !== "held" || !tell.held || !line) return;
    const held = tell.held;
    const isAbout = (choice: Held) =>
      choice.pedal === line.pedal &&
      choice.place.measure === line.place.measure &&
      choice.place.beat === line.place.beat;
    this.#wanted = held;
    this.wish(({ wishes, choices }) => ({ wishes, choices: [...choices.filter((old) => !isAbout(old)), held] }));
  }

  letGo(choice: Held): void {
    this.wish(({ wishes, choices }) => ({ wishes, choices: choices.filter((old) => old !== choice) }));
  }

  async askWhy(change: number): Promise<void> {
    const turn = this.#turn;
    clearTimeout(this.#idle);
    if (this.doing?.what === "fastest") {
      this.#planner.end();
      return this.plan().then(() => this.askWhy(change));
    }
    this.#begin("asking");
    const { shown } = this.#around();
    try {
      const holds: Hold[] = ["not", "earlier", "later"];
      await this.ready();
      const tell = await this.#planner.ask({ do: "why", key: this.key, change, holds, shown }, (step) => {
        if (step.is === "step" && this.doing) this.doing = { ...this.doing, done: step.done, of: step.of };
      });
      if (turn !== this.#turn || tell.is !== "why") return;
      this.why = { change, ways: tell.ways };
      this.doing = undefined;
    } catch (error) {
      if (turn === this.#turn) this.#failed(error, false);
    }
  }

  // ---- where she looks --------------------------------------------------------------------------

  /** To the bar of this measure, counted from 1. */
  lookAt(measure: number): void {
    const settings = this.pedals?.settings ?? [];
    const found = settings.findIndex((line) => line.measure >= measure);
    this.at = found < 0 ? Math.max(0, settings.length - 1) : found;
    this.change = undefined;
    this.engraving.looksAt = measure;
  }

  choose(change: number): void {
    const line = this.pedals?.changes[change];
    if (!line) return;
    this.lookAt(line.place.measure);
    this.change = change;
  }

  step(by: number): void {
    const settings = this.pedals?.settings ?? [];
    this.at = Math.min(settings.length - 1, Math.max(0, this.at + by));
    this.change = undefined;
    this.engraving.looksAt = settings[this.at]?.measure ?? 1;
  }

  /** To the next rehearsal mark that way; to the beginning or the end where there is none. */
  stepMark(by: 1 | -1): void {
    const settings = this.pedals?.settings ?? [];
    let at = this.at + by;
    while (settings[at] && settings[at]?.mark === undefined) at += by;
    this.step(at - this.at);
  }
}

/** The wishes with what she chose of single changes in them; of two choices for one place the newer holds. */
function planned({ wishes, choices }: Wished): PlanWishes {
  const pins = new Map(wishes.pins.map((pin) => [`${pin.measure} ${pin.beat} ${pin.pedal}`, pin]));
  for (const pin of choices.flatMap((choice) => choice.pins)) {
    pins.set(`${pin.measure} ${pin.beat} ${pin.pedal}`, pin);
  }
  return { ...wishes, pins: [...pins.values()] };
}
