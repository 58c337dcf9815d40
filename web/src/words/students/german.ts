import type { StudentsWords } from "./english";

const plural = (n: string, one: string, more: string) => `${n} ${n === "1" ? one : more}`;

export const german: StudentsWords = {
  heading: "Dateien der Schüler",
  how: "Eine Schülerin sichert auf der Seite Tagebuch unter ‚Für die Lehrerin oder den Lehrer‘ eine Datei und gibt sie Ihnen. Sie wird nur auf diesem Gerät gelesen: Nichts davon wird aufbewahrt, verschickt oder in Ihr eigenes Tagebuch übernommen, und mit dem Schließen ist sie vergessen.",
  open: "Dateien öffnen",
  show: "Zeigen",
  all: (n) => `alle ${n}`,
  closeAll: "Alle schließen",
  close: "Schließen",
  closeThis: (name) => `${name} schließen`,
  name: "Name, solange sie offen ist",
  file: (name) => `Datei: ${name}`,
  reading: (name) => `${name} wird gelesen …`,
  trouble: {
    large: (mb) =>
      `Diese Datei ist länger als ${mb} MB und wird nicht geöffnet. Bitten Sie um eine ab einem späteren Tag, oder ohne Luft und Regulierung.`,
    empty: "In dieser Datei steht nichts. Bitten Sie darum, sie noch einmal zu sichern.",
    foreign:
      "Keine Zeile dieser Datei ist ein Eintrag eines Tagebuchs. Bitten Sie um die Datei, die die Seite Tagebuch unter ‚Für die Lehrerin oder den Lehrer‘ sichert, als Datei geschickt und nicht als Text kopiert.",
    failed: (why) => `Diese Datei ließ sich nicht lesen: ${why}. Schließen und öffnen Sie sie noch einmal.`,
  },
  twin: (file, name) => `${file} hat dieselben Einträge wie ${name} und ist schon offen.`,
  tooMany: (n, most) => `${plural(n, "Datei war", "Dateien waren")} zu viel: ${most} können zugleich offen sein.`,
  records: (n, devices) => `${plural(n, "Eintrag", "Einträge")} von ${plural(devices, "Gerät", "Geräten")}.`,
  from: (from, to) => (from === to ? `Vom ${from}.` : `Vom ${from} bis zum ${to}.`),
  newer: (n, kinds) =>
    `${plural(n, "Eintrag stammt", "Einträge stammen")} von einer neueren Fassung und wird hier nicht gezeigt (${kinds}). Eine neuere Fassung dieser Seite zeigt das.`,
  apart: (n) =>
    `${plural(n, "Eintrag beansprucht", "Einträge beanspruchen")} den Platz eines anderen, der etwas anderes sagt: Von zweien gilt der frühere.`,
  bad: (n) => `${plural(n, "Zeile ließ", "Zeilen ließen")} sich nicht lesen; alles andere wird gezeigt:`,
  line: (line, why) => `Zeile ${line}: ${why}`,
  more: (n) => `und ${n} weitere`,
  nothing: "Kein Durchgang und kein Üben steht darin.",
  moreHarps: (n) => `${plural(n, "weitere Harfe wird", "weitere Harfen werden")} nicht gezeigt.`,
  noHarp: "Ohne Harfe geübt",
  kinds: { pedal: "Pedalharfe", lever: "Klappenharfe", free: "Eine Saite für jeden Halbton" },
  strings: (n, from, to) => `${n} Saiten, ${from} bis ${to}`,
  meaning: "Was die Zahlen sagen",
  practice: "Üben",
  weeks: "Woche für Woche",
  week: "Woche ab",
  rounds: "Durchgänge",
  tuning: "Gestimmt, Minuten",
  inTune: "Am Ende gestimmt",
  of: (n, all) => `${n} von ${all}`,
  open_: (n) => `${n} ohne Ende`,
  practised: "Geübt, Minuten",
  guesses: "Richtig geraten",
  near: "Nach Gehör daneben, Cent",
  between: (from, to) => `${from} bis ${to}`,
  roundsHow:
    "Minuten des Stimmens sind die von Durchgängen, die zu Ende kamen, ohne Pausen. Am Ende gestimmt: Saiten, die ganze Durchgänge gestimmt hinterließen, von allen dieser Durchgänge.",
  nearHow:
    "Nach Gehör daneben: Die Hälfte der nach Gehör gestimmten Saiten lag nicht weiter daneben. Was in Klammern steht, enthält die wahre Zahl 95-mal von 100; unter sechs Saiten gibt es das nicht.",
  earlier: "Frühere Wochen",
  worst: "Am häufigsten verstimmt gefundene Saiten",
  worstHow:
    "Wie sie zu Beginn eines Durchgangs gefunden wurden, bevor ein Wirbel gedreht war. Verstimmt ist, was sicher weiter daneben lag, als jener Durchgang gestimmt nannte. Die Hälfte der Male lag sie weiter daneben als die Mitte. Wie oft eine Saite gehört wurde, zählt: Wenige Male sagen wenig.",
  worstNone: "Keine war zu Beginn eines Durchgangs sicher verstimmt.",
  string: "Saite",
  out: "Verstimmt",
  outOf: (n, all) => `${n} von ${all} Malen`,
  usually: "Mitte, Cent",
  farthest: "Am weitesten, Cent",
  worstMore: (n, all) => `Die ersten ${n} von ${all}.`,
  guessed: (right, wrong, near) =>
    `Vor dem Drehen hoch oder tief gesagt, gegen die Messung gehalten: ${right} richtig, ${wrong} falsch, ${near} zu nah, um eines von beiden zu sein.`,
  share: (share, lower, upper) =>
    `Von denen, die sich beurteilen lassen, ${share} % richtig (${lower} bis ${upper} %).`,
  ear: "Hoch von tief, mit gemachten Saiten",
  earHow:
    "Von welcher Größe an hoch von tief unterschieden wurde: Darüber sind etwa vier von fünf Antworten richtig. Jede Woche nur nach ihren eigenen Antworten; bei wenigen bleibt es nahe am Üblichen, und das Intervall ist weit.",
  answers: "Antworten",
  from_: "Ab, Cent",
  questions: "Fragen",
  about: {
    tuner_name: "Was ein Stimmgerät zeigt",
    pin: "Welcher Wirbel",
    octave_number: "Welche Oktavzahl",
    diagram_read: "Ein Diagramm gelesen",
    diagram_set: "Ein Diagramm gestellt",
  },
  asked: "Worüber",
  right: "Richtig",
  interval: "95-mal von 100, %",
  counted: (n, middle, interval) =>
    `Schwebungen ${n}-mal gezählt: die Hälfte auf ${middle} in der Sekunde genau${interval}.`,
  tables: (what, whose) => `${what}: ${whose}`,
};
