import type { HerIntervals } from "../made/desk";

const KEY = "sevenflats intervals";
const USUAL: HerIntervals = { used: "student", top: undefined, middle: undefined, wire: undefined };

/** Her intervals as she set them last. */
export function rememberedIntervals(): HerIntervals {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return { ...USUAL, ...(typeof kept === "object" ? kept : {}) };
  } catch {
    return { ...USUAL };
  }
}

export function rememberIntervals(intervals: HerIntervals): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(intervals));
  } catch {
    // no room, or not allowed: they hold for this visit
  }
}
