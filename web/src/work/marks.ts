/** The stretches, in frames, in which the page itself may be heard. */
export class Marks {
  #marks: { from: number; to: number }[] = [];

  /** From a frame to another, or until it is told; then `from` is the end of the one that is open. */
  add(from: number, to: number | undefined): void {
    const open = this.#marks.find((mark) => mark.to === Infinity);
    if (to === undefined && !open) this.#marks.push({ from, to: Infinity });
    else if (to !== undefined && open) open.to = to;
    else if (to !== undefined) this.#marks.push({ from, to });
  }

  /** Whether any of these frames is marked; marks that lie before them are forgotten. */
  touches(from: number, to: number): boolean {
    this.#marks = this.#marks.filter((mark) => mark.to > from);
    return this.#marks.some((mark) => mark.from < to);
  }

  clear(): void {
    this.#marks = [];
  }
}
