import { browsersVoice, playTones, type Cue } from "./cues";

/** The tool's own sound: tones and words, and the frames between which a microphone may hear them. */
export class Aloud {
  readonly #voice = browsersVoice();
  readonly #context: () => AudioContext | undefined;
  readonly #mark: (from: number, to: number | undefined) => void;

  /** `context` is the microphone's, if there is one; `mark` hears from and to which of its frames the sound may last. */
  constructor(context: () => AudioContext | undefined, mark: (from: number, to: number | undefined) => void) {
    this.#context = context;
    this.#mark = mark;
  }

  get canSpeak(): boolean {
    return this.#voice.can;
  }

  tones(cue: Cue): void {
    const context = this.#context() ?? new AudioContext();
    const { from, to } = playTones(context, cue);
    this.#marked(context, from, to);
  }

  say(words: string, language: string): void {
    const context = this.#context();
    const time = () => context?.currentTime ?? 0;
    this.#voice.say(
      words,
      language,
      () => context && this.#marked(context, time(), undefined),
      () => context && this.#marked(context, time(), time()),
    );
  }

  /** From a loudspeaker to the engine takes as long as both ways in and out of the device. */
  #marked(context: AudioContext, from: number, to: number | undefined): void {
    if (context !== this.#context()) return;
    const late = (context.outputLatency || 0.05) + (context.baseLatency || 0.01) + 0.1;
    const frame = (s: number) => Math.round(s * context.sampleRate);
    this.#mark(frame(from), to === undefined ? undefined : frame(to + late));
  }
}
