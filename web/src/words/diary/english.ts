import type { LeafView } from "../../made/desk";

/** A figure in the reader's own way, with so many digits behind the point. */
export type Figure = (value: number, digits?: number) => string;

const PARTS = { fails: "does not work", buzzes: "buzzes", slips: "slips", off: "is off" } as Record<string, string>;
const SIDES = { natural: "natural", sharp: "sharp", flat: "flat" } as Record<string, string>;
const MADE_OF: Record<string, string> = {
  gut: "gut",
  nylon: "nylon",
  fluorocarbon: "fluorocarbon",
  steel: "steel",
  bronze: "bronze",
  brass: "brass",
  wound: "wound",
  wound_nylon: "wound on nylon",
  wound_gut: "wound on gut",
};

const KINDS: Record<string, string> = {
  note: "notes",
  air: "air",
  string_fitted: "strings put on",
  string_broken: "strings that broke",
  string_removed: "strings taken off",
  spares: "spares in the drawer",
  visit: "the technician's visits",
  regulation: "checks of the regulation",
  fault: "faults of the mechanism",
  reference: "the A taken",
  programme: "programmes",
  plan: "pieces",
  reading: "single readings",
  practice: "practice",
  harp: "harps",
  correction: "corrections",
  met: "clocks",
};

const joined = (...parts: (string | undefined | false)[]) => parts.filter((part) => part).join(", ");

/** A length of time in the largest unit of which there is one and a half. */
function long(seconds: number, figure: Figure): string {
  const s = Math.abs(seconds);
  if (s < 90) return `${figure(s, s < 10 ? 1 : 0)} s`;
  if (s < 5400) return `${figure(s / 60)} minutes`;
  if (s < 129_600) return `${figure(s / 3600)} hours`;
  return `${figure(s / 86_400)} days`;
}

function told({ told }: LeafView, figure: Figure): string {
  switch (told.is) {
    case "note":
      return told.string ? `${told.string}: ${told.text}` : told.text;
    case "air":
      return joined(
        told.temperature_c !== undefined && `${figure(told.temperature_c, 1)} °C`,
        told.humidity_percent !== undefined && `${figure(told.humidity_percent)} % humidity`,
      );
    case "string_fitted":
      return joined(
        `${told.string} put on`,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
        told.used && "used before",
        told.by && `by ${told.by}`,
      );
    case "string_broken":
      return joined(`${told.string} broke`, told.place);
    case "string_removed":
      return `${told.string} taken off`;
    case "spares":
      return joined(
        `Spares: ${figure(Math.abs(told.change), 0)} ${told.change < 0 ? "fewer" : "more"}`,
        told.string,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
      );
    case "visit":
      return joined("The technician came", told.who, told.done, told.note);
    case "regulation":
      return [
        `Regulation checked: ${told.right} of ${told.strings} strings right.`,
        told.to_mend.length > 0 && `To mend: ${told.to_mend.join(", ")}.`,
        told.pedals.length > 0 && `The whole pedal: ${told.pedals.join(", ")}.`,
        told.note,
      ]
        .filter((part) => part)
        .join(" ");
    case "fault": {
      const { part, name, position } = told.part;
      const what =
        part === "disc"
          ? `The disc of ${name} for ${SIDES[position ?? ""] ?? ""}`
          : part === "lever"
            ? `The lever of ${name}`
            : `The ${name} pedal`;
      return joined(`${what} ${told.does ? (PARTS[told.does] ?? told.does) : "is mended"}`, told.note);
    }
    case "reference":
      return joined(
        `A = ${figure(told.a4_hz, 1)} Hz`,
        told.u95_cents !== undefined && `± ${figure(told.u95_cents, 1)} cents`,
        told.from,
      );
    case "programme":
      return `${joined(`Programme: ${told.title}`, told.place)}${told.pieces.length > 0 ? `: ${told.pieces.join("; ")}` : ""}`;
    case "plan":
      return `${told.on_paper ? "Part on paper" : "Pedals planned"}: ${told.title || told.source}`;
    case "reading": {
      const way = Math.abs(told.off_cents) < 0.05 ? "" : told.off_cents > 0 ? " high" : " low";
      return `${told.string ?? "?"} read: ${figure(Math.abs(told.off_cents), 1)} ± ${figure(told.u95_cents, 1)} cents${way}`;
    }
    case "harp":
      return `The harp ${told.harp} as it is known`;
    case "correction":
      return joined(told.withdrawn ? `Taken back: ${short(told.of)}` : `Put right: ${short(told.of)}`, told.why);
    case "practice":
      return `Practised ${long(told.took_s, figure)}: ${joined(
        told.by_ear.length > 0 && `by ear ${told.by_ear.join(" ")}`,
        told.sizes > 0 && `${figure(told.sizes)} made strings`,
        told.asked > 0 && `${figure(told.asked)} questions`,
        told.counted > 0 && `beats counted ${figure(told.counted)} times`,
      )}`;
    case "met":
      return `The clock of ${short(told.device)} was ${long(told.ahead_s, figure)} ${told.ahead_s < 0 ? "behind" : "ahead"}`;
    case "unknown":
      return `A record of a newer version (${told.kind}): kept and passed on, not shown`;
    case "withdrawn":
      return `Taken back (${KINDS[told.kind] ?? told.kind})`;
  }
}

/** Devices have long names; the beginning tells them apart. */
export const short = (name: string) => name.replace(/^([0-9a-f]{8})-[0-9a-f-]{27}/, "$1");

/** The words of the page Diary but those that the first load has. */
export const english = {
  latest: "More rounds",
  others: "Everything else",
  kind: "Show",
  all: (n: string) => `all, ${n}`,
  kinds: KINDS,
  none: "Nothing yet.",
  reading: "Reading…",
  more: "Show more",
  shown: (n: string, of: string) => `${n} of ${of}`,
  told,
  corrected: "corrected",
  write: "Write something down",
  note: "A note",
  keepNote: "Keep the note",
  air: "The air in the room",
  temperature: "Temperature, °C",
  humidity: "Humidity, per cent",
  keepAir: "Keep the air",
  wrong: {
    nothing: "Nothing is written yet.",
    temperature: "A temperature between −40 and 60 °C?",
    humidity: "Humidity goes from 0 to 100 per cent.",
  } as Record<string, string>,
  kept: "Kept.",
  correct: "Correct",
  correctThis: (what: string) => `Correct: ${what}`,
  correctHow: "The first record stays as it is; this one is written beside it.",
  why: "Why (may stay empty)",
  keepRight: "Keep the correction",
  takeBack: "It should not have been written",
  close: "Close",
  exchange: {
    heading: "The computer beside it",
    none: "No server of this address keeps a diary. All is kept here, in this browser.",
    notYet: "Nothing was exchanged yet.",
    last: (when: string, whom: string) => `Last exchanged ${when} with ${whom}.`,
    counts: (sent: string, got: string) =>
      `${sent} ${sent === "1" ? "record" : "records"} went there, ${got} came here.`,
    apart: (n: string) =>
      `Two records stand in ${n === "1" ? "one place" : `each of ${n} places`}. Both are kept on both sides, the earlier is used:`,
    refused: (n: string) => `${n} not taken:`,
    now: "Exchange now",
    doing: "Exchanging…",
    busy: "The diary is open in another window.",
    trouble: {
      full: "Broken off: the computer’s disk is full. Nothing is lost, all stays here; make room there.",
      busy: "Broken off: another program is writing that diary. It is tried again.",
      damaged:
        "Broken off: the diary’s file on the computer is damaged. Nothing of this browser is lost. Restore a backup there with ‘sevenflats diary restore’.",
      denied: "Broken off: the diary’s file may not be opened there.",
      newer: "Broken off: a newer version of the program wrote that diary. Use that version there.",
      no_diary: "Broken off: the file there is no diary. Name the right one with ‘serve --diary’.",
      full_here: "Broken off: this browser has no more room. What came before that is kept.",
      away: "Broken off: the computer does not answer. It is tried again.",
      other: "Broken off. It is tried again.",
    } as Record<string, string>,
  },
  check: {
    heading: "Is it all there?",
    look: "Look through it",
    whole: "Nothing is missing.",
    count: (records: string, devices: string) =>
      `${records} ${records === "1" ? "record" : "records"} of ${devices} ${devices === "1" ? "device" : "devices"}.`,
    gap: (device: string, from: string, to: string) =>
      `${device}: ${from === to ? from : `${from} to ${to}`} written there and not here. Exchange with that device, or import its export.`,
    twin: (id: string) =>
      `${id}: two records claim this place. Both are kept, the earlier is used; write down again what the other says, if it was right.`,
    unknown: (n: string) =>
      `${n} ${n === "1" ? "record is" : "records are"} of a newer version: kept and passed on, not shown.`,
    damaged: (n: string) =>
      `${n} ${n === "1" ? "line is" : "lines are"} damaged. Another device, or the computer, has it whole.`,
    clock: (id: string, seen: string, by: string) =>
      seen === "ahead"
        ? `${id}: by its clock this was written ${by} from now. Look at that device’s clock, and at this one’s.`
        : `${id}: by its clock this was written ${by} before the record before it. The order is kept by number.`,
  },
  give: {
    heading: "For your teacher",
    how: "A file of what you choose, for somebody whom you show how it goes. Nothing leaves this device until you save the file and give it, or share it. It holds the records as they were written; what you took back is not in it.",
    what: "What is in it",
    groups: {
      rounds: "rounds, single readings, the A taken",
      practice: "practice",
      strings: "strings put on, broken, taken off",
      regulation: "checks of the regulation, faults, the technician’s visits",
      air: "temperature and humidity",
      spares: "spares in the drawer",
      notes: "notes, as you wrote them",
      programmes: "programmes and pieces",
    } as Record<string, string>,
    since: "From this day on (empty: all)",
    harp: "Harp",
    allHarps: "all harps",
    name: "Your name, for the file (may stay empty)",
    none: "Nothing of what you chose is in your diary.",
    count: (records: string, size: string) => `${records} ${records === "1" ? "record" : "records"}, ${size}.`,
    kb: (n: string) => `${n} kB`,
    mb: (n: string) => `${n} MB`,
    newer: (n: string) =>
      `${n} ${n === "1" ? "record" : "records"} of a newer version ${n === "1" ? "is" : "are"} left out: what they say is not known here.`,
    says: "What they say",
    rounds: (n: string, from: string, to: string) =>
      `${n} ${n === "1" ? "round" : "rounds"}, ${from === to ? `of ${from}` : `${from} to ${to}`}: each with every pluck as it was heard`,
    save: "Save the file",
    share: "Share…",
    notShared: "It could not be shared from here. Save the file, and send that.",
  },
  long,
  short,
};

export type DiaryWords = typeof english;
