import type { ProgrammeWords } from "../words/programme";
import type { Evening } from "./evening.svelte";

/** What is done between a piece and the one before it, in sentences; before the first, nothing. */
export function beforePiece(words: ProgrammeWords, evening: Evening, place: number): string[] {
  const before = place === 0 ? undefined : evening.before[place];
  if (!before) return [];
  const { pedals, turned } = before;
  const strings = turned.map((line) => words.byKeyLine(line.string_name, line.pitch_name));
  return [
    ...(pedals.length > 0 ? [words.pedalsBefore(pedals.map((line) => line.name).join(" "))] : []),
    ...(turned.length > 0 ? [words.between(strings.join(", "))] : []),
  ];
}
