import type { DrillAbout } from "../../made/desk";
import type { Kind } from "../../made/tune";

/** The intervals whose beats are counted. */
export type Beating = "unison" | "octave" | "fifth" | "fourth" | "third";

const strings = (n: number) => (n === 1 ? "1 string" : `${n} strings`);
const NOTCH: Record<Kind, string[]> = {
  pedal: ["With all pedals up", "With all pedals in the middle", "With all pedals down"],
  lever: ["With all levers off", "With all levers on", "With all levers on"],
};

/** Every sentence of practice without a harp in English. */
export const english = {
  back: "Other practice",
  stop: "Stop here",
  again: "Again",
  failed: (why: string) => `This could not be loaded: ${why}`,
  sound: {
    heading: "First your loudness",
    how: "Turn your loudness down, play the quiet string, and turn it up until you hear it well. Nothing that follows is louder.",
    ear: "With earphones leave one ear free.",
    play: "Play the quiet string",
    invented: "All strings here are made by reckoning; none was recorded.",
  },
  made: {
    heading: "Higher or lower",
    what: "Two strings, one after the other. Is the second higher or lower than the first? How far they are apart follows your answers, down to what you can just tell.",
    octave: "Octave",
    octaves: (n: number) => (n === 4 ? "4, with middle C" : n === 6 ? "6, for earphones" : String(n)),
    count: "Pairs",
    tell: "Tell me after each answer",
    begin: "Begin",
    place: (n: number, of: number) => `Pair ${n} of ${of}`,
    listen: "Listen.",
    which: "Is the second higher or lower?",
    higher: "Higher",
    lower: "Lower",
    keys: "Keys: ↑ higher, ↓ lower, R once more.",
    repeat: "Once more",
    right: { higher: "Right: it was higher.", lower: "Right: it was lower." },
    wrong: { higher: "No: it was higher.", lower: "No: it was lower." },
    over: "What you told apart",
    answered: (right: number, of: number) => `${right} of ${of} answers were right.`,
    threshold: (cents: string, lower: string, upper: string) =>
      `You told differences of about ${cents} cents, between ${lower} and ${upper}.`,
    means: "At that size four answers in five are right. The truth lies between the two figures 95 times in 100.",
    few: (n: number) => `From fewer than ${n} answers no figure is made.`,
    kept: "This is kept in the diary.",
  },
  beats: {
    heading: "Beats counted",
    what: "Two strings sound together for eight seconds. Tap with each beat, the swelling of the sound, or type how many there are in a second.",
    interval: "Interval",
    any: "any of them",
    intervals: {
      unison: "Unison",
      octave: "Octave",
      fifth: "Fifth",
      fourth: "Fourth",
      third: "Major third",
    } as Record<Beating, string>,
    begin: "Begin",
    pair: (interval: string, low: string, high: string) => `${interval}: ${low} and ${high}`,
    tap: "Tap",
    keys: "The space bar taps too.",
    tapped: (taps: number, rate: string) => (rate ? `${taps} taps, ${rate} a second` : `${taps} taps`),
    type: "Beats a second",
    answer: "That is my answer",
    repeat: "Hear it again",
    next: "Next",
    said: (said: string, truth: string) => `You counted ${said} a second; there were ${truth}.`,
    meet: (low: number, high: number) =>
      `They beat where partial ${low} of the lower string meets partial ${high} of the higher one.`,
    tempered: (interval: string, rate: string, a: string) =>
      `${interval} on these strings, equal temperament at A = ${a}: ${rate} a second.`,
    wide: (cents: string) => `This one was ${cents} cents wider than that.`,
    narrow: (cents: string) => `This one was ${cents} cents narrower than that.`,
    same: "This one was just that.",
    over: "Beats you counted",
    row: ["you", "in truth"] as [string, string],
  },
  drills: {
    heading: "Know the harp",
    what: "Short questions about your harp as it is chosen under Tune. What was wrong comes again after two others.",
    about: {
      tuner_name: "What a tuner shows",
      pin: "Which pin",
      octave_number: "Octave numbers",
      diagram_read: "Diagrams read",
      diagram_set: "Diagrams set",
    } as Record<DrillAbout, string>,
    levers: { diagram_read: "Levers of a key", diagram_set: "Levers set" } as Partial<Record<DrillAbout, string>>,
    keys: "Keys: the figures 1 to 9 answer.",
    count: (right: number, of: number) => `${right} of ${of} right`,
    next: "Next",
    right: "Right.",
    wrong: (answer: string) => `No: ${answer}.`,
    over: "What you knew",
    none: "This harp has too few strings for that.",
    shown: (name: string) => `Strings that stand at ${name}: what does a tuner show?`,
    shownBy: (kind: Kind, notch: number, shown: string) =>
      `${NOTCH[kind]?.[notch]} the tuner shows ${shown}. Which string is it?`,
    pinOf: (name: string) => `Which pin turns ${name}?`,
    heldBy: "Which string does the marked pin turn?",
    called: "What is the marked string called?",
    find: (name: string) => `Which string is ${name}?`,
    read: "What does this diagram say?",
    soundsIn: (letter: string) => `What do the ${letter} strings sound?`,
    leversIn: (key: string) => `Which levers are on in ${key} major?`,
    noLevers: "none",
    setKey: (key: string) => `Set ${key} major.`,
    setLetters: (letters: string) => `Set: ${letters}`,
    done: "Set so",
    pin: (n: number) => `pin ${n}`,
    neck: (colours: string, named: string) =>
      `The neck, from the player’s side. Strings from the left: ${colours}.${named}`,
    neckNamed: (at: number, name: string) => ` String ${at} is ${name}.`,
    neckPin: (at: number) => ` Pin ${at} is marked.`,
    neckHow:
      "The pins stand on the other side of the neck; here they are folded up. Common on harps, not on all: look at yours.",
    colours: { red: "red", dark: "dark", metallic: "wire", plain: "plain" } as Record<string, string>,
    harp: (count: number, marked: string) => `A harp of ${strings(count)}, bass left. ${marked}.`,
    marked: (mark: string, place: number) => `${mark ? `${mark}: ` : "Marked: "}string ${place} from the top`,
    stands: {
      pedal: ["up", "middle", "down"],
      lever: ["off", "on", "on"],
    } as Record<Kind, string[]>,
    why: {
      shown: "A tuner knows keys, not strings: it names the white or black key that sounds the same, here with sharps.",
      pin: "Follow the string up and over the neck. A key on another pin breaks strings: pluck, turn a hair, and hear that this string moves.",
      octave:
        "The harp’s octaves are counted from the top and run from E down to F. In 4C the octave is said first; middle C is 4C.",
      read: "From the left D C B, the long stroke, E F G A. Above the line is up and flat, on it natural, below it sharp.",
      levers: "A lever raises its own string a semitone, in every octave where it is set.",
    },
  },
};

export type PracticeDrillsWords = typeof english;
