import type { FewView, Foreseen } from "../made/desk";
import type {
  DrawnHarp,
  HarpChoice,
  Holding,
  KnownHarps,
  NamedString,
  PageAct,
  RoundChoice,
  Said,
  HeardLine,
  ShownChoice,
  SummaryView,
  TakenView,
  View,
} from "../made/tune";

/** A round for which there are only so many minutes; what the diary foresees, as soon as it was read. */
export interface FewMinutes {
  minutes: number;
  foreseen: Foreseen | undefined;
}

/** What the page asks of the engine. */
export type Ask =
  | { do: "sound"; blocks: MessagePort; rateHz: number }
  | { do: "begin"; choice: RoundChoice; device: string; next: number; few?: FewMinutes }
  | { do: "foreseen"; foreseen: Foreseen }
  | { do: "take up"; lines: string; device: string; next: number }
  | { do: "act"; act: PageAct }
  | { do: "settle"; place: number }
  | { do: "show"; shown: ShownChoice }
  | { do: "box"; width: number; height: number; unit: number }
  | { do: "own sound"; from: number; to: number | undefined }
  | { do: "levels"; wanted: boolean }
  | { do: "take the A"; note: string; usualHz: number | undefined }
  | { do: "end the A" }
  | { do: "keep" }
  | { do: "sum up" }
  | { do: "leave" }
  | { do: "strings of"; harp: HarpChoice };

/** What the engine tells the page. */
export type Tell =
  | { is: "ready" }
  | { is: "harps"; known: KnownHarps }
  | { is: "strings"; strings: NamedString[] }
  | { is: "view"; view: View; harp: DrawnHarp | undefined; account: string; few: FewView | undefined }
  | { is: "heard"; said: Said[]; heard: HeardLine[]; cameMs: number | undefined }
  | { is: "records"; lines: string[] }
  | { is: "level"; peak: number; silentS: number }
  | { is: "holding"; holding: Holding }
  | { is: "taken"; taken: TakenView }
  | { is: "summary"; summary: SummaryView }
  | { is: "blocks"; taken: number; lost: number; busyMs: number }
  | { is: "trouble"; words: string };
