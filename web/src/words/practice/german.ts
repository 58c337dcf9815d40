import type { PracticeWords } from "./english";

/** Dasselbe auf Deutsch. */
export const german: PracticeWords = {
  heading: "Üben",
  what: "Erst mit dem Ohr, dann mit dem Auge: was gemessen wird, bleibt verborgen, bis Sie gehört, gesagt und gedreht haben.",
  roundFirst: "Ein Durchgang ist im Gang: beenden Sie ihn zuerst.",
  toRound: "Zum Durchgang",
  withHarp: "Mit Ihrer Harfe: nach Gehör stimmen",
  withHarpWhat:
    "Sie zupfen zwei Saiten, sagen, ob die eine zu hoch oder zu tief ist, und stimmen sie nach der anderen. Erst dann wird gezeigt, was Sie getan haben und welche Schwebungen zu hören waren. Alle Pedale oben oder alle Klappen gelöst.",
  withoutHarp: "Ohne Harfe",
  madeWhat: "Zwei Saiten nacheinander, immer näher beieinander: wie kleine Unterschiede Sie hören.",
  beatsWhat: "Zwei Saiten zugleich: wie oft in der Sekunde schweben sie?",
  drillsWhat: "Namen, Oktavzahlen, Wirbel und Diagramme, auf der Harfe, die Sie gewählt haben.",
  drill: "Was gestimmt wird",
  earDrills: {
    octave: "Oktaven",
    unison: "Einklänge, mit einem Pedal oder einer Klappe",
    fifth: "Quinten",
    letter: "alle Saiten eines Tons",
  },
  octave: "In der Oktave der Harfe",
  letter: "Ton",
  strings: (n) => (n === 1 ? "1 Saite." : `${n} Saiten.`),
  nothing: "Diese Harfe hat kein solches Saitenpaar.",
  harp: (strings, a) => `${strings} Saiten, A = ${a}, wie unter Stimmen gewählt.`,
  change: "Das ändern",
  setOff:
    "Nehmen Sie die Harfe, wie sie steht; oder lassen Sie zuvor jemanden eine Saite um ein Haar nachlassen. Nie weit hinauf.",
  cautions: [
    "Immer nur ein Haar, und nie weit über den Ton: eine zu weit gedrehte Saite reißt. Gesicht und Augen aus der Ebene der Saiten.",
    "Sitzt der Schlüssel auf dem richtigen Wirbel? Folgen Sie der Saite hinauf und hinüber. Ein Kind stimmt mit einem Erwachsenen.",
    "Handgelenk und Schulter locker; aufhören, wenn sie müde werden.",
  ],
  begin: "Anfangen",
  hidden: "Was gehört wird, wird nicht gezeigt.",
  hears: "Mikrofon",
  live: "Was als Nächstes kommt",
  pluck: "zupfen",
  once: "noch einmal zupfen",
  stays: "Sie bleibt, wie sie ist.",
  willTune: "Diese werden Sie stimmen.",
  asLeft: "So, wie Sie sie gelassen haben.",
  moved: ({ what, of, to }) =>
    what === "lever"
      ? `Klappe von ${of} gesetzt, alle anderen gelöst.`
      : `${of}-Pedal ${to === "sharp" ? "unten" : "in der Mitte"}, alle anderen oben.`,
  movedNote: "Die Saite, die bleibt, klingt so, wie ihre Scheibe oder Klappe sie macht.",
  highOrLow: (tuned, stays) => `${tuned}, gegen ${stays}:`,
  high: "zu hoch",
  low: "zu tief",
  cannotTell: "Ich höre es nicht",
  byPedal: "Mit einem Umblätterpedal oder den Pfeiltasten: zurück für hoch, vor für tief.",
  tune: (tuned, stays) => `Stimmen Sie ${tuned} nach ${stays}, nach Gehör.`,
  listen: "Zupfen Sie beide, so oft Sie mögen. Langsamere Schwebungen: näher.",
  wanted: (beats) =>
    beats === undefined ? "" : `Die gleichstufige Stimmung hat hier ${beats} Schwebungen in der Sekunde.`,
  wantedNone: "Es sollten keine Schwebungen bleiben.",
  there: "Sie stimmt",
  pass: "Ohne sie weiter",
  another: (name) => `Das war ${name}.`,
  farUp: (tuned) =>
    `Halt. Wenn das ${tuned} war, steht sie weit über ihrem Ton: lassen Sie sie nach. Sitzt der Schlüssel auf dem richtigen Wirbel?`,
  known: (tuned) => `${tuned}, nach Gehör`,
  said: {
    right: (said) => `Sie sagten ${said}: so war es.`,
    wrong: (said) => `Sie sagten ${said}: es war umgekehrt.`,
    too_near: (said) => `Sie sagten ${said}: sie stand zu nah, um das eine oder andere zu heißen.`,
  },
  unsaid: "Sie haben nicht gesagt, wohin.",
  before: (off) => `Vorher stand sie ${off}.`,
  after: (off) => `Sie haben sie ${off} gelassen.`,
  off: (cents, u95, way) =>
    way === "there" ? `richtig, ± ${u95} Cent` : `${cents} ± ${u95} Cent zu ${way === "high" ? "hoch" : "tief"}`,
  notMeasured: "Das wurde nicht gemessen.",
  heard: (beats, low, high) =>
    `${beats} Schwebungen in der Sekunde waren zu hören, wo Teilton ${low} der tieferen Saite auf Teilton ${high} der höheren trifft.`,
  temperament: (beats) => `Die gleichstufige Stimmung hat ${beats}.`,
  doubtful: "So weit daneben: war es diese Saite? So klingt eine Nachbarin.",
  next: "Nächste Saite",
  end: "Beenden",
  back: "Zurück zu Üben",
  done: (done, of) => `${done} von ${of}`,
  broken: (times) =>
    `Der Ton war ${times === 1 ? "einmal" : `${times}-mal`} unterbrochen; was hineinfiel, wird noch einmal verlangt.`,
  what_came: "Was Sie nach Gehör getan haben",
  columns: ["Saite", "Sie sagten", "Vorher, Cent", "Nachher, Cent", "Zeit, s"],
  nothingTuned: "Keine Saite wurde gestimmt.",
  kept: "Es steht im Tagebuch.",
  past: "Ihre eigenen Wochen",
  pastWhat:
    "Wie Sie gestimmt und geübt haben, Woche für Woche, aus Ihrem Tagebuch: Ihre Vergangenheit und niemandes sonst.",
  pastShow: "Meine Wochen zeigen",
  pastReading: "Wird gelesen…",
};
