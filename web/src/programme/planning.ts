import type { PlanWishes } from "../made/programme";
import { Asking, type Unnumbered } from "./asked";
import type { PlanAsk, PlanTell } from "./messages";

/** The planner's Worker. Ended, it begins anew with the next question, and has read nothing. */
export class Planner {
  /** How often it was ended: what was read before is to be read again. */
  generation = 0;
  #asking = new Asking<PlanAsk, PlanTell>(
    () => new Worker(new URL("./planner.ts", import.meta.url), { type: "module" }),
  );
  #usual: PlanWishes | undefined;

  ask(ask: Unnumbered<PlanAsk>, step?: (tell: PlanTell) => void): Promise<PlanTell> {
    return this.#asking.ask(ask, step);
  }

  async usual(): Promise<PlanWishes> {
    const tell = this.#usual ? undefined : await this.ask({ do: "usual" });
    if (tell?.is === "wishes") this.#usual = tell.wishes;
    return structuredClone(this.#usual as PlanWishes);
  }

  end(): void {
    this.generation += 1;
    this.#asking.end();
  }
}
