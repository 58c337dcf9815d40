import type { PaperChoice } from "../../made/desk";
import type { Kind } from "../../made/tune";

/** Every sentence around a student's handout in English. */
export const english = {
  heading: "A handout for one student",
  what: "Two pages for the harp that a student has at home: its strings with their colours, what a tuner shows for each, how one tunes, a new string, cautions, whom to call, and lines for your notes.",
  harp: "The student’s harp",
  own: (harp: string) => `as under Tune: ${harp}`,
  kinds: { pedal: "Pedal harps", lever: "Lever harps" } as Record<Kind, string>,
  called: {
    pedal: (strings: string) => `pedal harp, ${strings} strings`,
    lever: (strings: string) => `lever harp, ${strings} strings`,
  } as Record<Kind, (strings: string) => string>,
  student: "The student’s name, if it is to stand there",
  keep: "Keep the name in this browser; otherwise it is forgotten when the page is closed",
  pitch: "Tuned to A at",
  language: "Language of the handout",
  paper: "Paper",
  papers: { a4: "A4, 210 × 297 mm", letter: "Letter, 8½ × 11 inches" } as Record<PaperChoice, string>,
  print: "Print, or save as PDF",
  how: "On both sides of one sheet, at its actual size. Without colours the C and F strings are still the thick ones.",
  making: "The pages are being made.",
  made: (pages: number) => (pages === 1 ? "1 page is ready." : `${pages} pages are ready.`),
  pages: "Its pages",
  page: (number: number, of: number) => `The handout, page ${number} of ${of}; its words stand below it as text`,
  asText: "The same as text",
  textOf: (number: number) => `Page ${number}`,
};

/** What every language has to say. */
export type HandoutWords = typeof english;
