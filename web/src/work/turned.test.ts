import { expect, test } from "vitest";
import { turned } from "./turned";

test.each([
  ["PageDown", "forward"],
  ["ArrowRight", "forward"],
  ["ArrowDown", "forward"],
  ["PageUp", "back"],
  ["ArrowLeft", "back"],
  ["ArrowUp", "back"],
  ["Enter", undefined],
  ["a", undefined],
])("%s turns the page %s", (key, way) => {
  expect(turned(key)).toBe(way);
});
