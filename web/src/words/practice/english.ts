import type { EarMoved } from "../../made/desk";
import type { EarDrill } from "../../practice/sitting.svelte";

/** Every sentence of the page Practice in English, but those of its drills without a harp. */
export const english = {
  heading: "Practice",
  what: "By ear first, by eye afterwards: what is measured is hidden until you have listened, said and turned.",
  roundFirst: "A round is under way: end it first.",
  toRound: "To the round",
  withHarp: "With your harp: tune by ear",
  withHarpWhat:
    "You pluck two strings, say whether one is high or low, and tune it to the other. Only then is it shown what you did, and the beats that could be heard. All pedals up, or all levers off.",
  withoutHarp: "Without a harp",
  madeWhat: "Two strings, one after the other, ever nearer to each other: how small a difference you tell.",
  beatsWhat: "Two strings at once: how often a second do they beat?",
  drillsWhat: "Names, octave numbers, pins and diagrams, on the harp that you chose.",
  drill: "What to tune",
  earDrills: {
    octave: "octaves",
    unison: "unisons, by a pedal or a lever",
    fifth: "fifths",
    letter: "all strings of a letter",
  } satisfies Record<EarDrill, string>,
  octave: "In the harp’s octave",
  letter: "Letter",
  strings: (n: number) => (n === 1 ? "1 string." : `${n} strings.`),
  nothing: "This harp has no such pair of strings.",
  harp: (strings: string, a: string) => `${strings} strings, A = ${a}, as chosen under Tune.`,
  change: "Change that",
  setOff: "Take the harp as it stands; or let somebody ease a string down by a hair first. Never far up.",
  cautions: [
    "A hair at a time, and never far above its pitch: a string that is turned too far breaks. Face and eyes out of the plane of the strings.",
    "Is the key on the right pin? Follow the string up and over. A child tunes with an adult.",
    "Wrist and shoulder loose; stop when they tire.",
  ],
  begin: "Begin",
  hidden: "Nothing is shown of what is heard.",
  hears: "Microphone",
  live: "What to do next",
  pluck: "pluck",
  once: "pluck once more",
  stays: "It stays as it is.",
  willTune: "You will tune this one.",
  asLeft: "As you left it.",
  moved: ({ what, of, to }: EarMoved) =>
    what === "lever"
      ? `Lever of ${of} on, all others off.`
      : `${of} pedal ${to === "sharp" ? "down" : "in the middle"}, all others up.`,
  movedNote: "The string that stays sounds as its disc or lever makes it.",
  highOrLow: (tuned: string, stays: string) => `${tuned}, against ${stays}:`,
  high: "too high",
  low: "too low",
  cannotTell: "I cannot tell",
  byPedal: "With a page-turning pedal or the arrow keys: back for high, forward for low.",
  tune: (tuned: string, stays: string) => `Tune ${tuned} to ${stays}, by ear.`,
  listen: "Pluck both as often as you like. Slower beats: nearer.",
  wanted: (beats: string | undefined) =>
    beats === undefined ? "" : `Equal temperament has ${beats} beats a second here.`,
  wantedNone: "There should be no beats left.",
  there: "It is there",
  pass: "Go on without it",
  another: (name: string) => `That was ${name}.`,
  farUp: (tuned: string) =>
    `Stop. If that was ${tuned}, it stands far above its pitch: ease it down. Is the key on the right pin?`,
  known: (tuned: string) => `${tuned}, by ear`,
  said: {
    right: (said: string) => `You said ${said}: so it was.`,
    wrong: (said: string) => `You said ${said}: it was the other way.`,
    too_near: (said: string) => `You said ${said}: it stood too near to be called either.`,
  } as Record<string, (said: string) => string>,
  unsaid: "You did not say which way.",
  before: (off: string) => `Before, it stood ${off}.`,
  after: (off: string) => `You left it ${off}.`,
  off: (cents: string, u95: string, way: "high" | "low" | "there") =>
    way === "there" ? `in tune, ± ${u95} cents` : `${cents} ± ${u95} cents ${way === "high" ? "high" : "low"}`,
  notMeasured: "That was not measured.",
  heard: (beats: string, low: string, high: string) =>
    `${beats} beats a second could be heard, where partial ${low} of the lower string meets partial ${high} of the higher.`,
  temperament: (beats: string) => `Equal temperament has ${beats}.`,
  doubtful: "So far off: was it that string? A neighbour sounds so.",
  next: "Next string",
  end: "End",
  back: "Back to Practice",
  done: (done: number, of: number) => `${done} of ${of}`,
  broken: (times: number) =>
    `The sound was broken ${times === 1 ? "once" : `${times} times`}; what fell into it is asked for again.`,
  what_came: "What you did by ear",
  columns: ["String", "You said", "Before, cents", "After, cents", "Time, s"],
  nothingTuned: "No string was tuned.",
  kept: "It is in the diary.",
  past: "Your own weeks",
  pastWhat: "How you tuned and practised, week by week, from your diary: your past, and nobody else’s.",
  pastShow: "Show my weeks",
  pastReading: "Reading…",
};

export type PracticeWords = typeof english;
