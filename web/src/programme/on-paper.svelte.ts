import type { DeadDisc, PaperAnswer, PieceEnds, SevenPedals, StuckPedal } from "../made/programme";
import type { Circumstances } from "./piece.svelte";
import type { Planner } from "./planning";

/** What she typed of a part, and what is broken tonight. */
export interface Typed {
  title: string;
  text: string;
  stuck: StuckPedal[];
  missing: string[];
  dead: DeadDisc[];
}

/** Where one may look: the beginning of a movement, or a place that is written down. */
export interface Stop {
  movement: number;
  /** Its place in the movement; none for the beginning. */
  place: number | undefined;
  mark: string | undefined;
  before: SevenPedals | undefined;
  after: SevenPedals;
}

/** What is typed without a pause between is undone at once. */
const ONE_GO_MS = 1200;

/** A part on paper, typed by its player. */
export class OnPaper {
  readonly kind = "paper";
  readonly key: string;
  typed: Typed = $state.raw({ title: "", text: "", stuck: [], missing: [], dead: [] });
  read: PaperAnswer | undefined = $state.raw();
  trouble: string | undefined = $state();
  keptPlan = $state(false);
  /** Where she looks, by its place among the stops. */
  at = $state(0);
  canUndo = $state(false);
  canRedo = $state(false);

  readonly #unnamed: () => string;
  #past: Typed[] = [];
  #future: Typed[] = [];
  #last = { of: "", at: 0 };
  #reading = false;
  #again: (() => Promise<void>) | undefined;

  constructor(unnamed: () => string, typed?: Typed, key: string = crypto.randomUUID()) {
    this.#unnamed = unnamed;
    this.key = key;
    if (typed) this.typed = typed;
  }

  get title(): string {
    return this.typed.title.trim() || this.#unnamed();
  }

  /** How it begins and ends; nothing where the harp has levers. */
  get ends(): PieceEnds | undefined {
    const { read } = this;
    if (!read?.for_pedals) return undefined;
    const { opening_setting, ending_setting, discless } = read;
    return { opening_setting, ending_setting, discless };
  }

  /** Which strings she calls exposed: a part on paper names no notes. */
  async played(planner: Planner, around: () => Circumstances): Promise<[string, number][]> {
    const { text, stuck, missing, dead } = this.typed;
    const tell = await planner.ask({
      do: "paper-played",
      paper: { text, stuck, missing, dead },
      harp: around().harp,
    });
    return tell.is === "played" ? tell.played : [];
  }

  /** Reads what stands there now; while that is done only the newest question waits. */
  async readBy(reader: Planner, around: () => Circumstances): Promise<void> {
    const { text, stuck, missing, dead } = this.typed;
    const { harp, shown } = around();
    const once = async () => {
      try {
        const tell = await reader.ask({ do: "paper", paper: { text, stuck, missing, dead }, harp, shown });
        if (tell.is === "paper") this.read = tell.paper;
        this.trouble = undefined;
      } catch (error) {
        this.trouble = error instanceof Error ? error.message : String(error);
      }
      this.at = Math.min(this.at, Math.max(0, this.stops.length - 1));
    };
    if (this.#reading) {
      this.#again = once;
      return;
    }
    this.#reading = true;
    await once();
    for (let next = this.#again; next; next = this.#again) {
      this.#again = undefined;
      await next();
    }
    this.#reading = false;
  }

  // ---- what she typed ---------------------------------------------------------------------------

  /** Another state of it; `of` names what is typed in one go. */
  type(change: Partial<Typed>, of = ""): void {
    const now = performance.now();
    const goesOn = of !== "" && of === this.#last.of && now - this.#last.at < ONE_GO_MS;
    if (!goesOn) this.#past.push(this.typed);
    this.#last = { of, at: now };
    this.#future = [];
    this.#set({ ...this.typed, ...change });
  }

  undo(): void {
    const before = this.#past.pop();
    if (!before) return;
    this.#future.push(this.typed);
    this.#last.of = "";
    this.#set(before);
  }

  redo(): void {
    const after = this.#future.pop();
    if (!after) return;
    this.#past.push(this.typed);
    this.#last.of = "";
    this.#set(after);
  }

  #set(typed: Typed): void {
    this.typed = typed;
    this.keptPlan = false;
    this.canUndo = this.#past.length > 0;
    this.canRedo = this.#future.length > 0;
  }

  // ---- where she looks --------------------------------------------------------------------------

  get stops(): Stop[] {
    let before: SevenPedals | undefined;
    const stops: Stop[] = [];
    for (const [movement, one] of (this.read?.movements ?? []).entries()) {
      stops.push({ movement, place: undefined, mark: undefined, before, after: one.setting });
      for (const [place, line] of one.places.entries()) {
        const mark = line.after_mark === 0 ? line.mark : undefined;
        stops.push({ movement, place, mark, before: line.before, after: line.after });
        before = line.after;
      }
      before = one.places.at(-1)?.after ?? one.setting;
    }
    return stops;
  }

  lookAt(movement: number, place: number): void {
    this.at = Math.max(
      0,
      this.stops.findIndex((stop) => stop.movement === movement && stop.place === place),
    );
  }

  step(by: number): void {
    this.at = Math.min(this.stops.length - 1, Math.max(0, this.at + by));
  }

  /** To the next mark that way, or to the end. */
  stepMark(by: 1 | -1): void {
    const { stops } = this;
    let at = this.at + by;
    while (stops[at] && stops[at]?.mark === undefined) at += by;
    this.step(at - this.at);
  }
}
