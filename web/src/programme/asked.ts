/** A question that has no number yet. */
export type Unnumbered<Ask> = Ask extends unknown ? Omit<Ask, "id"> : never;

/** Questions to a Worker and their answers. */
export class Asking<Ask extends { id: number }, Tell extends { id: number; is: string }> {
  #worker: Worker | undefined;
  #open = new Map<
    number,
    { done: (tell: Tell) => void; failed: (why: Error) => void; step: ((tell: Tell) => void) | undefined }
  >();
  #next = 1;
  readonly #begin: () => Worker;

  constructor(begin: () => Worker) {
    this.#begin = begin;
  }

  /** One question; `step` hears how far it is, and `hand` is given away with it. */
  ask(ask: Unnumbered<Ask>, step?: (tell: Tell) => void, hand: Transferable[] = []): Promise<Tell> {
    const id = this.#next++;
    const worker = (this.#worker ??= this.#started());
    return new Promise((done, failed) => {
      this.#open.set(id, { done, failed, step });
      worker.postMessage({ ...ask, id }, hand);
    });
  }

  /** Ends the Worker: what is open is never answered, and is told so. */
  end(): void {
    this.#worker?.terminate();
    this.#worker = undefined;
    this.#fail(new Stopped());
  }

  #started(): Worker {
    const worker = this.#begin();
    worker.onmessage = ({ data }: MessageEvent<Tell>) => this.#told(data);
    worker.onerror = (event) => this.#fail(new Error(event.message));
    return worker;
  }

  #told(tell: Tell): void {
    const open = this.#open.get(tell.id);
    if (tell.is === "step") return open?.step?.(tell);
    this.#open.delete(tell.id);
    if (tell.is === "failed") open?.failed(new Error((tell as unknown as { why: string }).why));
    else open?.done(tell);
  }

  #fail(why: Error): void {
    for (const open of this.#open.values()) open.failed(why);
    this.#open.clear();
  }
}

/** What was asked was stopped. */
export class Stopped extends Error {}
