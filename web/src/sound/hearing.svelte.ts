import { lacking, openMicrophone, type Source } from "./source";
import type { SoundTrouble } from "./trouble";

/** Seconds of silence in every bit after which the microphone is taken to be muted. */
const MUTED_S = 2;

/** What is done with the sound. */
export interface Listener {
  /** The microphone that she chose, where she did. */
  input(): string | undefined;
  /** Called before a microphone is opened: one page, one microphone. */
  first?(): void;
  /** Takes over the blocks. */
  take(blocks: MessagePort, rateHz: number): unknown;
  /** The sound went away, or came back by itself. */
  gone(): void;
  back(): void;
}

/** A microphone: opened, watched, and closed. */
export class Hearing {
  level = $state(0);
  listening = $state(false);
  soundTrouble: SoundTrouble | undefined = $state(lacking());

  readonly #listener: Listener;
  #source: Source | undefined;
  #awake: WakeLockSentinel | undefined;
  #wanted = false;

  constructor(listener: Listener) {
    this.#listener = listener;
    document.addEventListener("visibilitychange", () => void this.#stayAwake());
  }

  get context(): AudioContext | undefined {
    return this.#source?.context;
  }

  async listen(): Promise<void> {
    this.soundTrouble = undefined;
    this.#listener.first?.();
    try {
      await this.take(await openMicrophone(this.#listener.input()));
    } catch (error) {
      this.soundTrouble = error instanceof Error ? { other: error.message } : (error as SoundTrouble);
      this.listening = false;
    }
  }

  /** Hears this from now on. */
  async take(source: Source): Promise<void> {
    this.#source?.close();
    this.#source = source;
    this.soundTrouble = undefined;
    source.onTrouble = (trouble) => this.#lost(trouble);
    source.onBack = () => this.#back();
    await this.#listener.take(source.blocks, source.rateHz);
    this.listening = true;
  }

  /** What the Worker tells of the level. */
  heard(peak: number, silentS: number): void {
    this.level = peak;
    if (silentS >= MUTED_S) this.soundTrouble ??= "muted";
    else if (silentS === 0 && this.soundTrouble === "muted") this.#back();
  }

  close(): void {
    this.#source?.close();
    this.#source = undefined;
    this.listening = false;
    this.level = 0;
    this.stayAwake(false);
  }

  /** Back to what it was before anything was tried. */
  forget(): void {
    this.close();
    this.soundTrouble = lacking();
  }

  /** Whether the screen is to stay on. */
  stayAwake(wanted: boolean): void {
    this.#wanted = wanted;
    if (!wanted) void this.#awake?.release();
    else void this.#stayAwake();
  }

  #lost(trouble: SoundTrouble): void {
    this.soundTrouble = trouble;
    if (trouble === "unplugged") this.listening = false;
    this.#listener.gone();
  }

  /** What comes back by itself needs no touch. */
  #back(): void {
    if (this.soundTrouble !== "muted" && this.soundTrouble !== "interrupted") return;
    this.soundTrouble = undefined;
    this.#listener.back();
  }

  async #stayAwake(): Promise<void> {
    const wanted = this.#wanted && document.visibilityState === "visible";
    if (!wanted || !("wakeLock" in navigator)) return;
    try {
      this.#awake = await navigator.wakeLock.request("screen");
    } catch {
      // the battery is low, or the page is hidden: it is asked for again when the page is seen
    }
  }
}
