/** Where the reader may be; each but the first by its name behind the address. */
export const PLACES = [
  "first",
  "before",
  "take-a",
  "round",
  "end",
  "programme",
  "strings",
  "regulation",
  "diary",
  "practice",
  "teaching",
  "guide",
  "care",
  "settings",
] as const;

export type Place = (typeof PLACES)[number];
