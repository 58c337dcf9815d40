import type { ProgrammeWords } from "../words/programme";

const joined = (words: ProgrammeWords, passes: number[]) => passes.map(words.ordinal).join(words.and);

/** At which times of playing, in words. */
export function times(words: ProgrammeWords, passes: number[]): string {
  return words.times(joined(words, passes));
}

/** The same, where it holds at no other. */
export function timesOnly(words: ProgrammeWords, passes: number[]): string {
  return words.timesOnly(joined(words, passes));
}
