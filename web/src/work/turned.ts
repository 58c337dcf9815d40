/** The keys that a pedal which turns pages presses, by how it is set. */
const FORWARD = ["PageDown", "ArrowRight", "ArrowDown"];
const BACK = ["PageUp", "ArrowLeft", "ArrowUp"];

/** Which way a key turns the page, if it does. */
export function turned(key: string): "forward" | "back" | undefined {
  if (FORWARD.includes(key)) return "forward";
  return BACK.includes(key) ? "back" : undefined;
}
