import type { GuideWords } from "./english";

/** Was um die Kapitel der Anleitung herum steht, auf Deutsch. */
export const german: GuideWords = {
  isEnglish: "Die Kapitel der Anleitung gibt es nur auf Englisch.",
  search: "In der Anleitung suchen",
  hint: "Ein oder zwei englische Wörter; ein falscher Buchstabe schadet nicht.",
  results: "Gefunden",
  found: (sections) => (sections === 1 ? "1 Stelle gefunden." : `${sections} Stellen gefunden.`),
  foundMost: (sections) => `Gezeigt werden die ${sections} besten Stellen.`,
  notFound: (words) => `Zu „${words}“ wurde nichts gefunden.`,
  notFoundHow:
    "Versuchen Sie es mit weniger Wörtern oder einem anderen, auf Englisch: “pluck” (zupfen), “pin” (Wirbel), “lever” (Klappe), “round” (Durchgang).",
  groups: {
    "for-players": "Für alle, die spielen",
    "for-teachers": "Für alle, die unterrichten",
    "for-students": "Für alle, die lernen",
    "at-the-desk": "Am Schreibtisch, mit dem Befehl",
  },
  all: "Alle Kapitel",
  inChapter: "In diesem Kapitel",
  next: (title) => `Weiter: ${title}`,
  noChapter: "Ein solches Kapitel gibt es nicht.",
};
