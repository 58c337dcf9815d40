/** Every sentence around the guide's chapters in English. */
export const english = {
  isEnglish: "The chapters of the guide are written in English.",
  search: "Find in the guide",
  hint: "A word or two, as they come to you; a wrong letter does no harm.",
  results: "What was found",
  found: (sections: number) => (sections === 1 ? "1 place found." : `${sections} places found.`),
  foundMost: (sections: number) => `The ${sections} best places are shown.`,
  notFound: (words: string) => `Nothing was found for “${words}”.`,
  notFoundHow: "Try fewer words, or another one: the guide says “pluck”, “pin”, “lever”, “round”.",
  groups: {
    "for-players": "For players",
    "for-teachers": "For teachers",
    "for-students": "For students",
    "at-the-desk": "At the desk",
  } as Record<string, string>,
  all: "All chapters",
  inChapter: "In this chapter",
  next: (title: string) => `Next: ${title}`,
  noChapter: "There is no such chapter.",
};

/** What every language has to say. */
export type GuideWords = typeof english;
