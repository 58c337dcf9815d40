import type { ForeseeAsk, Foreseen } from "../made/desk";
import type { ForeseeTell } from "./foresee";

/** Only so many minutes: what she says of them before the round. */
export interface Minutes {
  minutes: number | undefined;
  temperatureC: number | undefined;
  humidityPercent: number | undefined;
}

/** Most minutes that may be said: who has more has time for a round. */
export const MOST = 60;
/** Minutes where none were said. */
export const USUAL = 10;

/** So many minutes as may be. */
export function within(minutes: number | undefined): number {
  return Math.min(MOST, Math.max(1, minutes ?? USUAL));
}

/** What the diary foresees; the thread ends with its answer. */
export class Foreseeing {
  foreseen: Foreseen | undefined;
  readonly #worker = new Worker(new URL("./foresee.ts", import.meta.url), { type: "module" });

  /** `done` gets the answer, or why there is none. */
  constructor(ask: ForeseeAsk, done: (foreseen: Foreseen | undefined, why: string) => void) {
    const ended = (foreseen: Foreseen | undefined, why: string) => {
      this.foreseen = foreseen;
      this.end();
      done(foreseen, why);
    };
    this.#worker.onmessage = ({ data }: MessageEvent<ForeseeTell>) => {
      if (data.is === "failed") return ended(undefined, data.why);
      performance.mark("foreseen", { detail: { readMs: data.readMs, foreseeMs: data.foreseeMs } });
      ended(data.foreseen, "");
    };
    this.#worker.onerror = (event) => ended(undefined, event.message);
    this.#worker.postMessage(ask);
  }

  end(): void {
    this.#worker.terminate();
  }
}
