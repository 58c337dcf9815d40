import type { DoubtLine } from "../made/programme";
import type { ProgrammeWords } from "../words/programme";

/** A doubt in the reader's words; what an XML parser says of damaged text stays as it says it. */
export function doubtWords(words: ProgrammeWords, { code, about }: DoubtLine): string {
  const { said, phrases } = words.doubts;
  const [one = "", other = "", third = ""] = about.map((value) => phrases[value] ?? value);
  return said[code]?.(one, other, third) ?? [code, ...about].join(" ");
}
