import type { PaperWords } from "./english";

/** Every sentence about a part on paper in German. */
export const german: PaperWords = {
  add: "Eine Stimme auf Papier",
  untitled: "Eine Stimme auf Papier",
  title: "Titel",
  text: "Was darin eingetragen ist, eine Zeile für jede Stelle",
  stays: "Was Sie schreiben, bleibt in diesem Browser, bis Sie es herausnehmen, und geht nirgendwohin.",
  how: "Wie es geschrieben wird",
  means: [
    "wie die Pedale zuerst stehen; was nicht genannt ist, steht in der Mitte",
    "eine Saite ohne Scheiben, und worauf sie gestimmt ist",
    "Saiten, die allein zu hören sind",
    "Takt 12, wo Buchstabe A steht: rechter Fuß Fis, linker Fuß H",
    "derselbe Takt, Schlag dreieinhalb",
    "zwei Takte nach A; ein Fuß nimmt beide Pedale zugleich",
    "was hinter -- steht, ist eine Notiz für Sie und wird gedruckt",
    "ein anderer Satz beginnt",
  ],
  signs:
    "Die Buchstaben sind die englischen: B ist H, Bb ist B. # oder ♯ erhöht, b oder ♭ erniedrigt, nichts heißt Mitte. Ohne | findet jeder Buchstabe seinen Fuß.",
  own: "Das Beispiel ist von uns erfunden.",
  onPaper: "auf Papier",
  refused: (n) => (n === 1 ? "1 Zeile ist nicht gelesen" : `${n} Zeilen sind nicht gelesen`),
  found: (n) => (n === 1 ? "1 Stelle ist noch einmal anzusehen" : `${n} Stellen sind noch einmal anzusehen`),
  allRead: "Jede Zeile ist gelesen.",
  line: (n) => `Zeile ${n}`,
  remarks: {
    no_place: (a) =>
      `„${a}“ ist keine Stelle: beginnen Sie mit einem Takt, 12 oder 12:3, oder einem Studierbuchstaben in Klammern, [A]`,
    no_h: (a) => `„${a}“ ist kein Pedal: schreiben Sie für H B, für B Bb`,
    no_letter: (a) => `„${a}“ ist kein Pedal: schreiben Sie eines von D C B E F G A, dann #, b oder nichts`,
    other_foot: (a) =>
      `${a} liegt nicht bei diesem Fuß: die Buchstaben des rechten (E F G A) stehen vor |, die des linken (D C B) dahinter`,
    twice: (a) => `${a} steht dort zweimal: lassen Sie eines davon stehen`,
    second_bar: () => "ein zweites |: eines trennt den rechten Fuß vom linken",
    nothing_to_join: () => "ein + verbindet zwei Pedale eines Fußes: davor steht keines von diesem Fuß",
    no_beat: (a) => `„${a}“ ist kein Schlag: zählen Sie ab 1, wie in 3, 2½ oder 5/2`,
    nothing_there: () =>
      "dort geschieht nichts: schreiben Sie, was sich bewegt, oder einen Buchstaben in Klammern, oder -- und eine Notiz",
    no_string: (a) => `„${a}“ ist keine Saite: schreiben Sie 7C, oder C1 für dieselbe`,
    no_pitch: (a) =>
      `„${a}“ ist kein Ton innerhalb von drei Halbtönen der Saite: schreiben Sie einen Buchstaben und sein Zeichen`,
    too_long: () => "der Text ist länger als jede Stimme: geben Sie jedem Stück seinen eigenen",
    no_opening: () => "wie die Pedale zuerst stehen, fehlt: schreiben Sie es in eine eigene Zeile, opening Bb Eb",
    changes_nothing: (a) =>
      `es steht schon auf ${a}: lassen Sie es weg, oder sehen Sie nach, ob davor ein Wechsel fehlt`,
    two_places: (a, b, foot) =>
      `der ${foot === "left" ? "linke" : "rechte"} Fuß hat ${a} und ${b} an einer Stelle: sagen Sie, welchen Schlag jedes hat (12:1, 12:3), oder verbinden Sie Nachbarn mit +, wenn Ihr Fuß beide nimmt`,
    two_positions: (a) => `${a} soll an einer Stelle auf zweierlei Weise stehen: sagen Sie, welchen Schlag jede hat`,
    not_neighbours: (a, b) => `${a} und ${b} liegen nicht nebeneinander: ein Fuß kann nicht beide zugleich nehmen`,
    crosses: (a, _, foot) => `der ${foot === "left" ? "linke" : "rechte"} Fuß greift über zu ${a}`,
    out_of_order: (a) => `es kommt nach ${a}: bringen Sie die Takte in ihre Reihe`,
    mark_twice: (a) => `Buchstabe ${a} steht schon bei einem anderen Takt`,
    no_such_string: (a) => `Ihre Harfe hat keine Saite ${a}`,
    has_discs: (a) => `${a} hat an Ihrer Harfe Scheiben: ihr Pedal bewegt sie mit, worauf sie auch gestimmt ist`,
  },
  leverHarp:
    "Stimmen auf Papier sind für Pedalharfen, und unter Stimmen ist eine Klappenharfe gewählt. Was Sie geschrieben haben, bleibt.",
  movement: (n, name) => (name === "" ? `Satz ${n}` : `Satz ${name}`),
  afterMark: (mark, bars) => (bars === 1 ? `1 Takt nach ${mark}` : `${bars} Takte nach ${mark}`),
  changes: "Wechsel nach Takten",
  exposed: "Allein zu hören",
  keep: "Diese Stimme ins Tagebuch",
  kept: "Steht im Tagebuch, wie Sie sie geschrieben haben.",
  takenOut: (title) => `${title} ist herausgenommen.`,
  putBack: "Wieder hinein",
  keepFailed: (why) => `Was Sie geschrieben haben, konnte nicht behalten werden (${why}).`,
  keys: "Tasten: ← → von Stelle zu Stelle, mit Umschalt nach Buchstaben.",
  touched: {
    pedal: (name) => `${name} klemmt; es sollte anders stehen`,
    disc: (name, sounds) => `${name} kann ${sounds} nicht geben`,
    string: (name) => `${name} fehlt, und Sie nennen sie`,
  },
  whole: "Nichts Kaputtes berührt diese Stimme, soweit sie aufgeschrieben ist.",
  fromBar: (bar) => `von Takt ${bar}`,
  fromBeginning: "von Anfang an",
  ofMovement: (n) => `in Satz ${n}`,
  toBar: (bar) => `bis Takt ${bar}`,
  toMovement: (n) => `bis zum Beginn von Satz ${n}`,
  toEnd: "bis zum Ende",
};
