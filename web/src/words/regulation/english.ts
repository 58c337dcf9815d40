import type { CheckPosition, CheckView } from "../../made/desk";
import type { Kind } from "../../made/tune";

/** Where all pedals or levers stand, or are to be moved. */
const STANDS: Record<Kind, Record<CheckPosition, string>> = {
  pedal: { open: "Pedals up", natural: "Pedals in the middle", sharp: "Pedals down" },
  lever: { open: "Levers off", natural: "Levers on", sharp: "Levers on" },
};
const MOVE: Record<Kind, Record<CheckPosition, string>> = {
  pedal: { open: "All pedals up", natural: "All pedals to the middle", sharp: "All pedals down" },
  lever: { open: "All levers off", natural: "All levers on", sharp: "All levers on" },
};

/** Every sentence of the page Regulation in English; what is found is told by the rooms that know it. */
export const english = {
  heading: "Regulation",
  what: {
    pedal:
      "Each string is heard with the pedals up, in the middle, down, and up once more. What comes out is how far each step is from a semitone, and whose that is.",
    lever:
      "Each string is heard with its lever off, on, and off once more. What comes out is how far each step is from a semitone, and whose that is.",
  } as Record<Kind, string>,
  before: [
    "Two weeks before a regulation: fit the strings that are due. A harp that is set to worn strings is out again when they are replaced.",
    "Tune the harp first. A string that is far off is asked about and not judged.",
    "Eyes out of the plane of the strings, as always. A pedal or lever that is stuck is not forced.",
  ],
  harp: (strings: string, a: string) => `${strings} strings, A = ${a}, as chosen under Tune.`,
  change: "Change that",
  time: "How long you have",
  all: "as long as it takes",
  some: "I choose the strings",
  minutes: (m: string) => `${m} minutes`,
  takes: (strings: number, times: number, minutes: string) =>
    `${strings === 1 ? "1 string" : `${strings} strings`}, each plucked ${times} times: about ${minutes} min.`,
  none: "No string is chosen that a disc or a lever moves.",
  which: "Which strings",
  fresh: "Put on less than two weeks ago: shown, not judged",
  freshKnown: (name: string, days: number) => `${name} (the diary: ${days === 1 ? "1 day" : `${days} days`})`,
  freshMore: "Add another",
  microphone: "Microphone",
  begin: "Begin",
  roundFirst: "A round is under way: end it first.",
  wasLeft: "A check was left",
  leftWords: (read: number, left: number) => `${read} plucks were read, ${left} are still to come.`,
  goOn: "Go on with it",
  judge: "Judge what was read",
  forget: "Put it aside",
  earlier: "Checks in the diary",
  listed: (when: string, strings: number) => `${when}: ${strings === 1 ? "1 string" : `${strings} strings`}`,
  show: "Show",
  stands: STANDS,
  move: MOVE,
  live: "What to do next",
  pluck: "pluck",
  thenPluck: "then pluck",
  again: "once more",
  look: "look",
  pausedWord: "paused",
  sounds: (pitch: string) => `now ${pitch}`,
  readOf: (read: number, of: number) => `${read} of ${of}`,
  left: (minutes: string) => `about ${minutes} min left`,
  last: (name: string, cents: string) => `${name} was ${cents}`,
  broken: (times: number, seconds: string) =>
    `The sound was broken ${times === 1 ? "once" : `${times} times`}, ${seconds} s are missing; a pluck that fell into it is asked for again.`,
  pause: "Pause",
  resume: "Go on",
  leaveOut: (name: string) => `Leave ${name} out`,
  endNow: "End now",
  voice: "Speak",
  gone: "The microphone is gone. The check is paused, and what was read is kept. Plug it in or choose another, then go on.",
  interrupted:
    "Something interrupted the sound, a call perhaps. The check is paused; it goes on when the sound is back.",
  /** What is spoken, and read by a screen reader. */
  spoken(kind: Kind, view: CheckView): string {
    const name = view.string?.name ?? "";
    const move = view.word === "move" && view.position ? `${MOVE[kind][view.position]}. ` : "";
    return view.words === "" ? `${move}${name}` : `${move}${view.words} ${name}`;
  },
  findings: "What was found",
  date: (when: string, a: string) => `${when}, at A = ${a}.`,
  readStrings: (strings: number, plucks: number) =>
    `${strings === 1 ? "1 string" : `${strings} strings`}, ${plucks} plucks read`,
  notRead: (left: number) => `, ${left} not plucked: broken off before the end.`,
  nothing: "Nothing was read, so nothing is said.",
  noneOut: "No step is surely out.",
  noneRead: "No step was read.",
  report: (steps: number) => (steps === 1 ? "1 step for the technician." : `${steps} steps for the technician.`),
  isUp: { pedal: "All pedals are up.", lever: "All levers are off." } as Record<Kind, string>,
  beside: "Beside it, before the visit",
  noBeside: "no other check",
  written: "This check is in the diary.",
  notWritten: "This check is not in the diary yet.",
  write: "Write it down",
  print: "Print, or save as PDF",
  csv: "Table (CSV)",
  done: "Done",
  table: "Every string, in cents",
  columns: { string: "String", open: "open", natural: "to natural", sharp: "to sharp", sum: "both", own: "own" },
  legend:
    "Open: against its target. To natural, to sharp: beyond a semitone, ± half of a 95 % interval; ringed where it is for the technician. Both: beyond two semitones. Own: how far the string came back elsewhere of itself.",
  was: (cents: string) => `was ${cents}`,
  yours: "Yours, and the technician’s",
  page: (number: number, of: number) => `The report, page ${number} of ${of}; the table above has the same figures`,
  called: {
    pedal: (strings: string) => `Pedal harp, ${strings} strings`,
    lever: (strings: string) => `Lever harp, ${strings} strings`,
  } as Record<Kind, (strings: string) => string>,
};

/** What every language has to say. */
export type RegulationWords = typeof english;
