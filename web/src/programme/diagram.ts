import type { SevenPedals } from "../made/programme";

/** The pedals from left to right: left foot, right foot. */
export const LEFT = ["D", "C", "B"] as const;
export const RIGHT = ["E", "F", "G", "A"] as const;
export const PEDALS = [...LEFT, ...RIGHT] as const;
export type Pedal = (typeof PEDALS)[number];

const SIGNS = { [-1]: "♭", [0]: "", [1]: "♯" } as Record<number, string>;

/** A pedal as it is pencilled: its letter and where it stands, a natural bare. */
export function letter(pedal: Pedal, setting: SevenPedals): string {
  return pedal + (SIGNS[setting[pedal]] ?? "");
}

/** The pedals that stand elsewhere than before. */
export function moved(setting: SevenPedals, before: SevenPedals | undefined): Pedal[] {
  return before ? PEDALS.filter((pedal) => setting[pedal] !== before[pedal]) : [];
}
