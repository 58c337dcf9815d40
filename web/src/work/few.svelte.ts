import type { FewView, ForeseeAsk, Foreseen } from "../made/desk";
import { Foreseeing, within, type Minutes } from "./minutes";

/** A round for which there are only some minutes: what she says before it, what is foreseen, what stands beside it. */
export class Few {
  /** What she says; nothing where there is time for a whole round. */
  minutes: Minutes | undefined = $state();
  /** What stands beside the round. */
  view: FewView | undefined = $state.raw();
  /** When the minutes are over, milliseconds since 1970. */
  endsMs = $state(0);
  /** Why nothing could be foreseen. */
  notForeseen: string | undefined = $state();
  #foreseeing: Foreseeing | undefined;
  #said = { inTune: false, over: false };

  /** What the engine begins with, as far as it is known by then. */
  get beginning(): { minutes: number; foreseen: Foreseen | undefined } | undefined {
    return this.minutes && { minutes: within(this.minutes.minutes), foreseen: this.#foreseeing?.foreseen };
  }

  /** Reads the diary while she sets up the microphone; `came` hears what it foresees. */
  foresee(ask: ForeseeAsk, came: (foreseen: Foreseen) => void): void {
    this.rest();
    const foreseeing = new Foreseeing(ask, (foreseen, why) => {
      if (foreseeing !== this.#foreseeing) return;
      if (foreseen) came(foreseen);
      else this.notForeseen = why;
    });
    this.#foreseeing = foreseeing;
  }

  /** What was being read is let go. */
  rest(): void {
    this.#foreseeing?.end();
    this.#foreseeing = undefined;
    this.notForeseen = undefined;
  }

  setOut(): void {
    this.view = undefined;
    this.#said = { inTune: false, over: false };
  }

  leave(): void {
    this.view = undefined;
    this.rest();
    this.minutes = undefined;
  }

  show(view: FewView | undefined): void {
    this.view = view;
    if (view) this.endsMs = Date.now() + 1000 * view.left_s;
  }

  /** What is newly so: the harp in tune, the minutes over. */
  news(): string {
    const { view } = this;
    if (!view?.is_read) return "";
    const now = { inTune: view.in_tune, over: view.left_s <= 0 };
    const was = this.#said;
    this.#said = now;
    const said = [now.inTune && !was.inTune ? view.lines[0] : "", now.over && !was.over ? view.lines[1] : ""];
    return said.filter((line) => line).join(" ");
  }
}
