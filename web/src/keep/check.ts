import type { KeptCheck } from "../made/desk";

/** A check that goes on, apart from the diary until it is judged: a page that is closed loses nothing that was read. */
const KEY = "sevenflats check";

export function keptCheck(): KeptCheck | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "null") as KeptCheck | null;
    return kept && Array.isArray(kept.steps) && kept.steps.length > 0 ? kept : undefined;
  } catch {
    return undefined;
  }
}

export function keepCheck(kept: KeptCheck): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(kept));
  } catch {
    // no room, or not allowed: the check stands as long as the page
  }
}

export function forgetCheck(): void {
  try {
    localStorage.removeItem(KEY);
  } catch {
    // not allowed: then nothing is kept either
  }
}
