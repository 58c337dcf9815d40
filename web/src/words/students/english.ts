const plural = (n: string, one: string, more: string) => `${n} ${n === "1" ? one : more}`;

/** The words of students' files. Figures come as the reader writes them. */
export const english = {
  heading: "Students’ files",
  how: "A student saves a file under ‘For your teacher’ on the page Diary and gives it to you. It is read on this device only: nothing of it is kept, sent anywhere, or added to your own diary, and when you close it, it is forgotten.",
  open: "Open files",
  show: "Show",
  all: (n: string) => `all ${n}`,
  closeAll: "Close all",
  close: "Close",
  closeThis: (name: string) => `Close ${name}`,
  name: "Name, as long as it is open",
  file: (name: string) => `File: ${name}`,
  reading: (name: string) => `${name} is being read…`,
  trouble: {
    large: (mb: string) =>
      `This file is longer than ${mb} MB, and is not opened. Ask for one from a later day on, or without air and regulation.`,
    empty: "There is nothing in this file. Ask your student to save it once more.",
    foreign:
      "No line of this file is a record of a diary. Ask your student for the file that the page Diary saves under ‘For your teacher’, sent as a file and not copied as text.",
    failed: (why: string) => `This file could not be read: ${why}. Close it and open it once more.`,
  },
  twin: (file: string, name: string) => `${file} holds the same records as ${name}, and is open already.`,
  tooMany: (n: string, most: string) => `${plural(n, "file was", "files were")} too many: ${most} can be open at once.`,
  records: (n: string, devices: string) =>
    `${plural(n, "record", "records")} of ${plural(devices, "device", "devices")}.`,
  from: (from: string, to: string) => (from === to ? `Of ${from}.` : `From ${from} to ${to}.`),
  newer: (n: string, kinds: string) =>
    `${plural(n, "record is", "records are")} of a newer version and not shown (${kinds}). A newer version of this page shows them.`,
  apart: (n: string) =>
    `${plural(n, "record claims", "records claim")} the place of another and say something else: of two the earlier is used.`,
  bad: (n: string) => `${plural(n, "line", "lines")} could not be read; the rest is shown:`,
  line: (line: string, why: string) => `Line ${line}: ${why}`,
  more: (n: string) => `and ${n} more`,
  nothing: "No round and no practice is in it.",
  moreHarps: (n: string) => `${plural(n, "more harp is", "more harps are")} not shown.`,
  noHarp: "Practised without a harp",
  kinds: { pedal: "Pedal harp", lever: "Lever harp", free: "A string for every semitone" } as Record<string, string>,
  strings: (n: string, from: string, to: string) => `${n} strings, ${from} to ${to}`,
  meaning: "What the figures say",
  practice: "practice",
  weeks: "Week by week",
  week: "Week from",
  rounds: "Rounds",
  tuning: "Tuned, minutes",
  inTune: "In tune at the end",
  of: (n: string, all: string) => `${n} of ${all}`,
  open_: (n: string) => `${n} not ended`,
  practised: "Practised, minutes",
  guesses: "Guesses right",
  near: "Off by ear, cents",
  between: (from: string, to: string) => `${from} to ${to}`,
  roundsHow:
    "Minutes of tuning are those of rounds that ended, pauses left out. In tune at the end: strings that whole rounds left in tune, of all of theirs.",
  nearHow:
    "Off by ear: half of the strings that were tuned by ear lay no farther off than this. What stands in brackets holds the true figure 95 times in 100; under six strings there is none.",
  earlier: "Earlier weeks",
  worst: "Strings found out of tune most often",
  worstHow:
    "As they were found when a round began, before any pin was turned. Out is what surely lay farther off than that round called in tune. Half the times it lay farther off than the middle. How often a string is heard matters: few times tell little.",
  worstNone: "None was surely out when a round began.",
  string: "String",
  out: "Out",
  outOf: (n: string, all: string) => `${n} of ${all} times`,
  usually: "Middle, cents",
  farthest: "Farthest, cents",
  worstMore: (n: string, all: string) => `The first ${n} of ${all}.`,
  guessed: (right: string, wrong: string, near: string) =>
    `Said high or low before turning, held against the measurement: ${right} right, ${wrong} wrong, ${near} too near to be called either.`,
  share: (share: string, lower: string, upper: string) =>
    `Right ${share} % of those that can be judged (${lower} to ${upper} %).`,
  ear: "High from low, with made strings",
  earHow:
    "From which size on high was told from low: above it some four answers in five are right. Each week by its own answers alone; with few of them it stays near what is usual, and the interval is wide.",
  answers: "Answers",
  from_: "From, cents",
  questions: "Questions",
  about: {
    tuner_name: "What a tuner shows",
    pin: "Which pin",
    octave_number: "Which octave number",
    diagram_read: "A diagram read",
    diagram_set: "A diagram set",
  } as Record<string, string>,
  asked: "About",
  right: "Right",
  interval: "95 times in 100, %",
  counted: (n: string, middle: string, interval: string) =>
    `Beats counted ${plural(n, "time", "times")}: half of them within ${middle} a second${interval}.`,
  tables: (what: string, whose: string) => `${what}: ${whose}`,
};

export type StudentsWords = typeof english;
