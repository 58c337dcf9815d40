import type { CheckPosition, CheckView } from "../../made/desk";
import type { Kind } from "../../made/tune";
import type { RegulationWords } from "./english";

const STANDS: Record<Kind, Record<CheckPosition, string>> = {
  pedal: { open: "Pedale oben", natural: "Pedale in der Mitte", sharp: "Pedale unten" },
  lever: { open: "Klappen gelöst", natural: "Klappen gesetzt", sharp: "Klappen gesetzt" },
};
const MOVE: Record<Kind, Record<CheckPosition, string>> = {
  pedal: { open: "Alle Pedale nach oben", natural: "Alle Pedale in die Mitte", sharp: "Alle Pedale nach unten" },
  lever: { open: "Alle Klappen lösen", natural: "Alle Klappen setzen", sharp: "Alle Klappen setzen" },
};

/** Die Seite Regulierung auf Deutsch. */
export const german: RegulationWords = {
  heading: "Regulierung",
  what: {
    pedal:
      "Jede Saite wird mit den Pedalen oben, in der Mitte, unten und noch einmal oben gehört. Heraus kommt, wie weit jede Stufe von einem Halbton abweicht, und an wem es liegt.",
    lever:
      "Jede Saite wird mit gelöster, gesetzter und noch einmal gelöster Klappe gehört. Heraus kommt, wie weit jede Stufe von einem Halbton abweicht, und an wem es liegt.",
  },
  before: [
    "Zwei Wochen vor einer Regulierung: fällige Saiten aufziehen. Eine Harfe, die auf alte Saiten eingestellt ist, stimmt nicht mehr, wenn sie ersetzt werden.",
    "Die Harfe zuerst stimmen. Nach einer Saite, die weit abweicht, wird gefragt; beurteilt wird sie nicht.",
    "Die Augen aus der Ebene der Saiten, wie immer. Ein Pedal oder eine Klappe, die klemmt, wird nicht mit Gewalt bewegt.",
  ],
  harp: (strings, a) => `${strings} Saiten, A = ${a}, wie unter Stimmen gewählt.`,
  change: "Das ändern",
  time: "So viel Zeit ist da",
  all: "so lange es dauert",
  some: "Ich wähle die Saiten",
  minutes: (m) => `${m} Minuten`,
  takes: (strings, times, minutes) =>
    `${strings === 1 ? "1 Saite" : `${strings} Saiten`}, jede ${times}-mal gezupft: etwa ${minutes} min.`,
  none: "Keine Saite ist gewählt, die eine Scheibe oder Klappe bewegt.",
  which: "Welche Saiten",
  fresh: "Vor weniger als zwei Wochen aufgezogen: gezeigt, nicht beurteilt",
  freshKnown: (name, days) => `${name} (Tagebuch: ${days === 1 ? "1 Tag" : `${days} Tage`})`,
  freshMore: "Eine weitere",
  microphone: "Mikrofon",
  begin: "Beginnen",
  roundFirst: "Eine Runde ist im Gang: sie zuerst beenden.",
  wasLeft: "Eine Prüfung blieb liegen",
  leftWords: (read, left) => `${read} Töne sind gelesen, ${left} stehen noch aus.`,
  goOn: "Damit weitermachen",
  judge: "Beurteilen, was gelesen ist",
  forget: "Weglegen",
  earlier: "Prüfungen im Tagebuch",
  listed: (when, strings) => `${when}: ${strings === 1 ? "1 Saite" : `${strings} Saiten`}`,
  show: "Zeigen",
  stands: STANDS,
  move: MOVE,
  live: "Was als Nächstes zu tun ist",
  pluck: "zupfen",
  thenPluck: "dann zupfen",
  again: "noch mal",
  look: "nachsehen",
  pausedWord: "Pause",
  sounds: (pitch) => `jetzt ${pitch}`,
  readOf: (read, of) => `${read} von ${of}`,
  left: (minutes) => `noch etwa ${minutes} min`,
  last: (name, cents) => `${name} war ${cents}`,
  broken: (times, seconds) =>
    `Der Ton riss ${times === 1 ? "einmal" : `${times}-mal`} ab, ${seconds} s fehlen; was hineinfiel, wird noch einmal verlangt.`,
  pause: "Pause",
  resume: "Weiter",
  leaveOut: (name) => `${name} auslassen`,
  endNow: "Jetzt beenden",
  voice: "Sprechen",
  gone: "Das Mikrofon ist weg. Die Prüfung ruht, und was gelesen ist, ist behalten. Einstecken oder ein anderes wählen, dann weiter.",
  interrupted:
    "Etwas unterbrach den Ton, ein Anruf vielleicht. Die Prüfung ruht; sie geht weiter, wenn der Ton wieder da ist.",
  spoken(kind: Kind, view: CheckView): string {
    const name = view.string?.name ?? "";
    const move = view.word === "move" && view.position ? `${MOVE[kind][view.position]}. ` : "";
    return view.words === "" ? `${move}${name}` : `${move}${view.words} ${name}`;
  },
  findings: "Was gefunden wurde",
  date: (when, a) => `${when}, bei A = ${a}.`,
  readStrings: (strings, plucks) => `${strings === 1 ? "1 Saite" : `${strings} Saiten`}, ${plucks} Töne gelesen`,
  notRead: (left) => `, ${left} nicht gezupft: vor dem Ende abgebrochen.`,
  nothing: "Nichts wurde gelesen, also wird nichts gesagt.",
  noneOut: "Keine Stufe weicht sicher ab.",
  noneRead: "Keine Stufe wurde gelesen.",
  report: (steps) => (steps === 1 ? "1 Stufe für die Harfentechnik." : `${steps} Stufen für die Harfentechnik.`),
  isUp: { pedal: "Alle Pedale sind oben.", lever: "Alle Klappen sind gelöst." },
  beside: "Daneben, vor dem Besuch",
  noBeside: "keine andere Prüfung",
  written: "Diese Prüfung steht im Tagebuch.",
  notWritten: "Diese Prüfung steht noch nicht im Tagebuch.",
  write: "Eintragen",
  print: "Drucken, oder als PDF sichern",
  csv: "Tabelle (CSV)",
  done: "Fertig",
  table: "Jede Saite, in Cent",
  columns: {
    string: "Saite",
    open: "offen",
    natural: "zum Stammton",
    sharp: "zum Kreuz",
    sum: "beide",
    own: "eigen",
  },
  legend:
    "Offen: gegen ihr Ziel. Zum Stammton, zum Kreuz: über einen Halbton hinaus, ± die Hälfte eines 95-%-Intervalls; umringt, wo es für die Harfentechnik ist. Beide: über zwei Halbtöne hinaus. Eigen: wie weit die Saite von selbst anderswo ankam.",
  was: (cents) => `war ${cents}`,
  yours: "Was Ihres ist, und was Sache der Harfentechnik",
  page: (number, of) => `Der Bericht, Seite ${number} von ${of}; die Tabelle oben hat dieselben Zahlen`,
  called: {
    pedal: (strings) => `Pedalharfe, ${strings} Saiten`,
    lever: (strings) => `Klappenharfe, ${strings} Saiten`,
  },
};
