import type * as Demo from "../made/demo";
import { making, MadeSounds } from "../sound/made";

/** What drills of made strings have in common: the module that makes them, and the quiet string that comes first. */
export class MadeSound {
  /** Whether the quiet string was heard. */
  heard = $state(false);
  /** Why there is no module. */
  trouble: string | undefined = $state();
  #made: typeof Demo | undefined;
  readonly #sounds = new MadeSounds();

  /** The module; none where it could not be loaded. */
  async load(): Promise<typeof Demo | undefined> {
    try {
      this.trouble = undefined;
      return (this.#made ??= await making());
    } catch (error) {
      this.trouble = error instanceof Error ? error.message : String(error);
      return undefined;
    }
  }

  /** The quiet string, by which she sets her loudness. */
  async quietly(): Promise<void> {
    const made = await this.load();
    if (!made) return;
    this.heard = true;
    this.play(made.made_quietly());
  }

  play(samples: Float32Array): void {
    if (this.#made) void this.#sounds.play(samples, this.#made.made_rate_hz());
  }

  stop(): void {
    this.#sounds.stop();
  }

  close(): void {
    this.#sounds.close();
  }
}
