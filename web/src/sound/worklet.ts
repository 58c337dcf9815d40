/// <reference types="vite/client" />
// Takes the microphone's sound out of the audio thread, in blocks of 1024 frames, and does nothing else.

declare const sampleRate: number;
declare const currentFrame: number;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: typeof AudioWorkletProcessor): void;

/** A block on its way to whoever listens. */
export interface Block {
  /** One channel, −1 to 1. */
  samples: Float32Array<ArrayBuffer>;
  /** The first sample's frame, by the context's clock. */
  frame: number;
  /** Counted from nought: a number left out is a block that was lost. */
  place: number;
}

const FRAMES = 1024;

class Tap extends AudioWorkletProcessor {
  #spare: Float32Array<ArrayBuffer>[] = [];
  #block = new Float32Array(FRAMES);
  #filled = 0;
  #frame = 0;
  #place = 0;
  #out: MessagePort | undefined;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.#out = data;
      this.#out.onmessage = ({ data: samples }: MessageEvent<Float32Array<ArrayBuffer>>) => this.#spare.push(samples);
    };
  }

  process(inputs: Float32Array[][]): boolean {
    const channels = inputs[0] ?? [];
    const frames = channels[0]?.length ?? 0;
    if (frames === 0) return true;
    if (this.#filled === 0) this.#frame = currentFrame;
    else if (this.#frame + this.#filled !== currentFrame) this.#send();
    for (let i = 0; i < frames; i += 1) {
      let sum = 0;
      for (const channel of channels) sum += channel[i] ?? 0;
      this.#block[this.#filled] = sum / channels.length;
      this.#filled += 1;
      if (this.#filled === FRAMES) {
        this.#send();
        this.#frame = currentFrame + i + 1;
      }
    }
    return true;
  }

  #send(): void {
    const samples = this.#filled === FRAMES ? this.#block : this.#block.slice(0, this.#filled);
    const block: Block = { samples, frame: this.#frame, place: this.#place };
    this.#place += 1;
    this.#filled = 0;
    this.#frame = currentFrame;
    if (!this.#out) return;
    this.#block = this.#spare.pop() ?? new Float32Array(FRAMES);
    this.#out.postMessage(block, [samples.buffer]);
  }
}

registerProcessor("tap", Tap);
