import type { HarpChoice, OrderChoice } from "../made/tune";
import type { Language } from "../words";

/** What the reader chose, remembered between visits. */
export interface Choices {
  harp: HarpChoice;
  a4Hz: number;
  usualA4Hz: number | undefined;
  order: OrderChoice;
  middleCents: number;
  outerCents: number;
  language: Language | undefined;
  scientific: boolean;
  otherSide: boolean;
  tone: "auto" | "light" | "dark" | "dim";
  voice: boolean;
  cues: boolean;
  input: string | undefined;
}

export const PEDAL_47: HarpChoice = {
  kind: "pedal",
  lowest: "C1",
  highest: "G7",
  open: undefined,
  unmoved: ["C1", "D1", "G7"],
};

/** A few strings only; without discs, each at what it is to sound. */
export interface TouchUp {
  strings: string[];
  setting: number[] | undefined;
  discless?: [string, string][];
}

const USUAL: Choices = {
  harp: PEDAL_47,
  a4Hz: 440,
  usualA4Hz: undefined,
  order: "from_middle",
  middleCents: 3,
  outerCents: 5,
  language: undefined,
  scientific: false,
  otherSide: false,
  tone: "auto",
  voice: false,
  cues: false,
  input: undefined,
};

const KEY = "sevenflats choices";

/** What was chosen last, or the usual. */
export function remembered(): Choices {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return { ...USUAL, ...(typeof kept === "object" ? kept : {}) };
  } catch {
    return { ...USUAL };
  }
}

export function remember(choices: Choices): void {
  try {
    localStorage.setItem(KEY, JSON.stringify(choices));
  } catch {
    // no room, or not allowed: the choices hold for this visit
  }
}
