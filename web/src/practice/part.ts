/** What one drill adds to a sitting's record, as the diary keeps it. */
export interface Part {
  took_s: number;
  sizes?: { hz: number; size_cents: number; right: boolean }[];
  asked?: { about: "tuner_name" | "pin" | "octave_number" | "diagram_read" | "diagram_set"; right: boolean }[];
  counted?: { per_s: number; said_per_s: number }[];
}

/** A draw that nobody could guess. */
export function seed(): bigint {
  return crypto.getRandomValues(new BigUint64Array(1))[0] ?? 0n;
}

/** Gathers answers, and keeps them when it is told to, when the page is hidden, and when the drill is left. */
export class Kept<T> {
  #answers: T[] = [];
  #since = performance.now();
  readonly #keep: (took_s: number, answers: T[]) => void;

  constructor(keep: (took_s: number, answers: T[]) => void) {
    this.#keep = keep;
  }

  /** From now on the time counts. */
  begin(): void {
    this.now();
    this.#since = performance.now();
  }

  add(answer: T): void {
    this.#answers.push(answer);
  }

  now(): void {
    if (this.#answers.length === 0) return;
    const answers = this.#answers;
    const took = (performance.now() - this.#since) / 1000;
    this.#answers = [];
    this.#since = performance.now();
    this.#keep(took, answers);
  }

  /** Watches the page; what it gives ends that, and keeps what is left. */
  watch(): () => void {
    const hidden = () => document.visibilityState === "hidden" && this.now();
    const gone = () => this.now();
    document.addEventListener("visibilitychange", hidden);
    addEventListener("pagehide", gone);
    return () => {
      document.removeEventListener("visibilitychange", hidden);
      removeEventListener("pagehide", gone);
      this.now();
    };
  }
}
