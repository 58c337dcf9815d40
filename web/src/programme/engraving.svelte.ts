import type { PlanAnswer } from "../made/programme";
import { Asking, Stopped } from "./asked";
import type { EngraveAsk, EngraveTell, System } from "./messages";

/** A system as it stands on the page. */
export interface Shown extends System {
  /** What is pencilled in it, as a text that differs where anything does. */
  pencilled: string;
  /** The first of its marks, by the numbers that stand in its drawing. */
  firstMark: number;
}

/** Measures that are set at once: few for the first, which is waited for. */
const FIRST = 6;
const CHUNK = 16;
/** After so long it is tried again where the planner was ended. */
const AGAIN_MS = 300;
/** Measures beyond a system that is set anew, so that it is filled as before. */
const BEYOND = 3;

/** One engraver for the page, begun when a score is first shown. */
const engraver = new Asking<EngraveAsk, EngraveTell>(
  () => new Worker(new URL("./engraver.ts", import.meta.url), { type: "module" }),
);

/** A mark of the plan: its measure, and what it says. */
interface Mark {
  measure: number;
  text: string;
}

/** The place of the first mark at or after a measure. */
function firstMark(marks: Mark[], measure: number): number {
  const found = marks.findIndex((mark) => mark.measure >= measure);
  return found < 0 ? marks.length : found;
}

/** What is pencilled in a system, as a text. */
function pencilled(marks: Mark[], { from, until }: System): string {
  return marks
    .filter((mark) => mark.measure >= from && mark.measure <= until)
    .map((mark) => `${mark.measure}: ${mark.text}`)
    .join("; ");
}

/** The systems of a piece, set one after the other, and anew where what is pencilled in them changes. */
export class Engraving {
  systems: Shown[] = $state.raw([]);
  busy = $state(false);
  failed: string | undefined = $state();
  /** The measure that is looked at, from 1. */
  looksAt = 1;

  #music: (from: number, until: number) => Promise<string | undefined>;
  #measures = 0;
  #marks: Mark[] = [];
  #width = 0;
  #scale = 40;
  #running = false;
  #turn = 0;

  constructor(music: (from: number, until: number) => Promise<string | undefined>) {
    this.#music = music;
  }

  /** A plan to be shown; systems stay where nothing in them is other. */
  show(measures: number, answer: PlanAnswer | undefined): void {
    this.#measures = measures;
    this.#marks = (answer?.pencilled ?? []).map(({ measure, changes }) => ({
      measure,
      text: changes
        .map(
          (at) =>
            `${answer?.changes[at]?.place.beat} ${answer?.changes[at]?.pedal}${answer?.changes[at]?.to} ${answer?.changes[at]?.only_then}`,
        )
        .join(),
    }));
    void this.#run();
  }

  /** A width in CSS pixels. */
  fit(width: number): void {
    if (width < 100 || Math.abs(width - this.#width) < 0.08 * this.#width) return;
    this.#width = width;
    this.#scale = width < 500 ? 34 : 42;
    this.forget();
    void this.#run();
  }

  /** Another reading of the score: nothing stays. */
  forget(): void {
    this.#turn += 1;
    this.systems = [];
    this.failed = undefined;
  }

  /** The place in the plan of a mark that stands in a system. */
  markOf(system: Shown, mark: number): number {
    return firstMark(this.#marks, system.from) + mark - system.firstMark;
  }

  /** The next measures to be set, counted from 1: what is stale near the reader first, then on from the last. */
  #next(): { from: number; until: number; one: boolean } | undefined {
    const stale = this.systems.filter((system) => system.pencilled !== pencilled(this.#marks, system));
    const far = (system: Shown) => Math.abs(system.from - this.looksAt);
    const nearest = stale.toSorted((one, other) => far(one) - far(other))[0];
    if (nearest) return { from: nearest.from, until: nearest.until + BEYOND, one: true };
    const last = this.systems.at(-1)?.until ?? 0;
    if (last >= this.#measures) return undefined;
    return { from: last + 1, until: last + (last === 0 ? FIRST : CHUNK), one: false };
  }

  async #run(): Promise<void> {
    if (this.#running || this.#width === 0 || this.#measures === 0) return;
    this.#running = true;
    this.busy = true;
    try {
      for (let next = this.#next(); next && !this.failed; next = this.#next()) await this.#set(next);
    } catch (error) {
      // the planner was ended, for this piece or another: what is left is asked of the next one
      if (error instanceof Stopped) setTimeout(() => void this.#run(), AGAIN_MS);
      else this.failed = error instanceof Error ? error.message : String(error);
    } finally {
      this.#running = false;
      this.busy = false;
    }
  }

  async #set(next: { from: number; until: number; one: boolean }): Promise<void> {
    const turn = this.#turn;
    const until = Math.min(next.until, this.#measures);
    // as they stand now: another plan may come while these are being drawn
    const marks = this.#marks;
    const music = await this.#music(next.from - 1, until);
    if (music === undefined || turn !== this.#turn) return;
    const more = until < this.#measures;
    const ask = { music, width: this.#width, scale: this.#scale, more };
    const tell = await engraver.ask(ask);
    if (tell.is !== "systems" || turn !== this.#turn) return;
    if (tell.systems.length === 0) throw new Error("nothing was drawn");
    const set = tell.systems.map((system) => ({
      ...system,
      pencilled: pencilled(marks, system),
      firstMark: firstMark(marks, system.from),
    }));
    if (next.one) this.#replace(set[0] as Shown);
    else this.systems = [...this.systems, ...set];
  }

  #replace(system: Shown): void {
    const at = this.systems.findIndex((other) => other.from === system.from);
    if (at < 0) return;
    const same = this.systems[at]?.until === system.until;
    // broken otherwise than before: all after it is set anew
    this.systems = same ? this.systems.with(at, system) : [...this.systems.slice(0, at), system];
  }
}
