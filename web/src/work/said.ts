import type { FewView } from "../made/desk";
import type { View } from "../made/tune";
import type { Cue } from "../sound/cues";
import type { Words } from "../words";

/** The tone for what a string's last word says; none where it has none. */
export function cueOf({ word: { kind } }: View): Cue | undefined {
  return kind === "up" ? "low" : kind === "down" ? "high" : kind === "in_tune" ? "in tune" : undefined;
}

/** The same in words; of a round of some minutes, what comes next and what is new, too. */
export function wordsOfView(view: View, few: FewView | undefined, news: string, spoken: Words["spoken"]): string {
  const cue = cueOf(view);
  const name = view.string?.name ?? "";
  const said: string[] = [];
  if (cue) said.push(`${name}, ${cue === "low" ? spoken.up : cue === "high" ? spoken.down : spoken.inTune}`);
  // both her hands are busy: the string that is asked for is said
  if (few && !cue && view.word.kind === "pluck") said.push(name);
  if (few && cue && view.next && view.next.id !== view.string?.id) said.push(view.next.words);
  if (news) said.push(news);
  return said.join(". ");
}
