import type { HandoutChoice, PaperChoice } from "../made/desk";
import type { Language } from "../words";

/** What was chosen for handouts, remembered between visits; what is not there was not chosen. */
export interface HandoutKept {
  /** Another harp than the one under Tune. */
  harp: HandoutChoice["harp"] | undefined;
  /** Open tuning of a lever harp. */
  open: string | undefined;
  a4Hz: number | undefined;
  order: HandoutChoice["order"] | undefined;
  language: Language | undefined;
  paper: PaperChoice;
  /** Whether the student's name is kept too. */
  keepsName: boolean;
  student: string;
}

const KEY = "sevenflats handout";
const USUAL: HandoutKept = {
  harp: undefined,
  open: undefined,
  a4Hz: undefined,
  order: undefined,
  language: undefined,
  paper: "a4",
  keepsName: false,
  student: "",
};

/** What was chosen last, or the usual. */
export function rememberedHandout(): HandoutKept {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    return { ...USUAL, ...(typeof kept === "object" ? kept : {}) };
  } catch {
    return { ...USUAL };
  }
}

/** Keeps all of it, the name only where that is wished. */
export function rememberHandout(kept: HandoutKept): void {
  try {
    localStorage.setItem(KEY, JSON.stringify({ ...kept, student: kept.keepsName ? kept.student : "" }));
  } catch {
    // no room, or not allowed: it holds for this visit
  }
}
