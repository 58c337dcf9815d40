import type { HarpView, StringsAsk } from "../made/desk";

/** What was seen last, and when. */
export interface Seen {
  at: string;
  harp: HarpView;
}

const KEY = "sevenflats strings";

/** All that a view depends on beside the diary and the time. */
const asked = ({ name, choice, intervals, shown }: StringsAsk) => JSON.stringify({ name, choice, intervals, shown });

/** The same view as it was seen last: the diary of many years takes a moment to read. */
export function seenLast(ask: StringsAsk): Seen | undefined {
  try {
    const kept = JSON.parse(localStorage.getItem(KEY) ?? "{}") as { asked?: string; seen?: Seen };
    return kept.asked === asked(ask) ? kept.seen : undefined;
  } catch {
    return undefined;
  }
}

export function rememberSeen(ask: StringsAsk, harp: HarpView): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ asked: asked(ask), seen: { at: ask.now, harp } }));
  } catch {
    // no room, or not allowed: it is read the next time
  }
}
