import type { Block } from "./worklet";

/** Blocks after which the level is told: some twelve times a second. */
const LEVELS = 4;

/** Who hears what the microphone gives. */
export interface Hears {
  /** The sound has another rate from now on. */
  rate(rateHz: number): void;
  /** So many samples are missing here. */
  lost(samples: number): void;
  /** The next samples, and the frames from which and to which they go. */
  samples(samples: Float32Array, from: number, to: number): void;
  /** The loudest of late, and for how long there was nothing at all, seconds. */
  level(peak: number, silentS: number): void;
  trouble(error: unknown): void;
}

/** Blocks of sound as they come into a Worker: what is missing is counted, and every block is given back. */
export class Intake {
  rateHz = 48_000;
  readonly #hears: Hears;
  #blocks: MessagePort | undefined;
  #taken = 0;
  #frame = -1;
  #peak = 0;
  #silent = 0;

  constructor(hears: Hears) {
    this.#hears = hears;
  }

  listen(port: MessagePort, rateHz: number): void {
    this.close();
    this.#blocks = port;
    this.#hears.rate(rateHz);
    this.rateHz = rateHz;
    this.#frame = -1;
    this.#silent = 0;
    port.onmessage = ({ data }: MessageEvent<Block>) => {
      try {
        this.#take(data);
      } catch (error) {
        this.#hears.trouble(error);
      }
      port.postMessage(data.samples, [data.samples.buffer]);
    };
  }

  close(): void {
    this.#blocks?.close();
    this.#blocks = undefined;
  }

  #take({ samples, frame }: Block): void {
    this.#taken += 1;
    // frames that the worklet never saw, or blocks that never came
    const missing = this.#frame < 0 ? 0 : frame - this.#frame;
    this.#frame = frame + samples.length;
    this.#level(samples);
    if (missing > 0) this.#hears.lost(missing);
    this.#hears.samples(samples, frame, frame + samples.length);
  }

  #level(samples: Float32Array): void {
    let peak = 0;
    for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
    this.#peak = Math.max(this.#peak, peak);
    this.#silent = peak > 0 ? 0 : this.#silent + samples.length;
    if (this.#taken % LEVELS !== 0) return;
    this.#hears.level(this.#peak, this.#silent / this.rateHz);
    this.#peak = 0;
  }
}
