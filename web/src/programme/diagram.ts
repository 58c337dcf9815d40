import type { SevenPedals } from "../made/programme";
import type { ProgrammeWords } from "../words/programme";

/** The pedals from left to right: left foot, right foot. */
export const LEFT = ["D", "C", "B"] as const;
export const RIGHT = ["E", "F", "G", "A"] as const;
export const PEDALS = [...LEFT, ...RIGHT] as const;
export type Pedal = (typeof PEDALS)[number];

/** A pedal as it is called where it stands, a natural bare. */
export function letter(pedal: Pedal, setting: SevenPedals, words: ProgrammeWords): string {
  return words.pedals[pedal][setting[pedal] + 1] ?? pedal;
}

/** The pedals that stand elsewhere than before. */
export function moved(setting: SevenPedals, before: SevenPedals | undefined): Pedal[] {
  return before ? PEDALS.filter((pedal) => setting[pedal] !== before[pedal]) : [];
}
