import type * as Demo from "../made/demo";

/** The module that makes strings, loaded when asked for. */
export async function making(): Promise<typeof Demo> {
  const [made, { default: wasm }] = await Promise.all([import("../made/demo"), import("../made/demo_bg.wasm?url")]);
  await made.default({ module_or_path: wasm });
  return made;
}

/** Seconds in which a sound that is stopped fades. */
const FADE = 0.03;

/** Made sounds, one at a time; as loud as they were made, no louder. */
export class MadeSounds {
  #context: AudioContext | undefined;
  #end: (() => void) | undefined;
  #turn = 0;

  /** Plays samples in place of what still sounds; resolves with whether they sounded to their end. */
  async play(samples: Float32Array, rateHz: number): Promise<boolean> {
    this.stop();
    const turn = (this.#turn += 1);
    const context = (this.#context ??= new AudioContext());
    await context.resume();
    if (turn !== this.#turn) return false;
    const buffer = context.createBuffer(1, samples.length, rateHz);
    buffer.copyToChannel(new Float32Array(samples), 0);
    const source = new AudioBufferSourceNode(context, { buffer });
    const shape = new GainNode(context, { gain: 1 });
    source.connect(shape).connect(context.destination);
    return new Promise((resolve) => {
      source.onended = () => {
        if (turn === this.#turn) this.#end = undefined;
        resolve(turn === this.#turn);
      };
      this.#end = () => {
        const now = context.currentTime;
        shape.gain.setValueAtTime(1, now);
        shape.gain.linearRampToValueAtTime(0, now + FADE);
        source.stop(now + FADE);
      };
      performance.mark("made sound", { detail: { seconds: buffer.duration } });
      // what was stopped has faded by then
      source.start(context.currentTime + FADE);
    });
  }

  stop(): void {
    this.#turn += 1;
    this.#end?.();
    this.#end = undefined;
  }

  close(): void {
    this.stop();
    const context = this.#context;
    this.#context = undefined;
    if (context) setTimeout(() => void context.close(), 2000 * FADE);
  }
}
