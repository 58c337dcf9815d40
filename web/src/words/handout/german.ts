import type { HandoutWords } from "./english";

/** Was um ein Blatt für Lernende herum steht, auf Deutsch. */
export const german: HandoutWords = {
  heading: "Ein Blatt für eine Schülerin, einen Schüler",
  what: "Zwei Seiten für die Harfe, die zu Hause steht: ihre Saiten mit ihren Farben, was ein Stimmgerät bei jeder zeigt, wie man stimmt, eine neue Saite, Vorsicht, wen man ruft, und Zeilen für Ihre Notizen.",
  harp: "Die Harfe zu Hause",
  own: (harp) => `wie unter Stimmen: ${harp}`,
  kinds: { pedal: "Pedalharfen", lever: "Klappenharfen" },
  called: {
    pedal: (strings) => `Pedalharfe, ${strings} Saiten`,
    lever: (strings) => `Klappenharfe, ${strings} Saiten`,
  },
  student: "Der Name, wenn er darauf stehen soll",
  keep: "Den Namen in diesem Browser behalten; sonst ist er vergessen, wenn die Seite geschlossen wird",
  pitch: "Gestimmt auf A bei",
  language: "Sprache des Blattes",
  paper: "Papier",
  papers: { a4: "A4, 210 × 297 mm", letter: "Letter, 8½ × 11 Zoll" },
  print: "Drucken oder als PDF sichern",
  how: "Auf beide Seiten eines Blattes, in tatsächlicher Größe. Auch ohne Farben sind die C- und F-Saiten die dicken.",
  making: "Die Seiten werden gemacht.",
  made: (pages) => (pages === 1 ? "1 Seite ist fertig." : `${pages} Seiten sind fertig.`),
  pages: "Die Seiten",
  page: (number, of) => `Das Blatt, Seite ${number} von ${of}; die Wörter stehen darunter als Text`,
  asText: "Dasselbe als Text",
  textOf: (number) => `Seite ${number}`,
};
