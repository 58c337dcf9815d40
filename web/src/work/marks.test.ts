import { expect, test } from "vitest";
import { Marks } from "./marks";

/** Marks as pairs, an open one without its end; then blocks and whether each is touched. */
function check(marks: [number, number?][], blocks: [number, number, boolean][]): void {
  const all = new Marks();
  for (const [from, to] of marks) all.add(from, to);
  for (const [from, to, touched] of blocks) expect(all.touches(from, to), `${from} to ${to}`).toBe(touched);
}

test("a block is marked where any of its frames is", () => {
  check(
    [[1000, 2000]],
    [
      [0, 1000, false],
      [500, 1001, true],
      [1500, 1600, true],
      [1999, 2100, true],
      [2000, 3000, false],
    ],
  );
});

test("a mark without an end lasts until it is told", () => {
  check(
    [[1000]],
    [
      [0, 1024, true],
      [90_000, 91_024, true],
    ],
  );
  check(
    [[1000], [5000, 5000]],
    [
      [4000, 5024, true],
      [5024, 6048, false],
    ],
  );
});

test("two marks may lie over each other", () => {
  check(
    [
      [1000, 3000],
      [2000, 2500],
    ],
    [
      [2600, 2700, true],
      [3000, 3100, false],
    ],
  );
});
