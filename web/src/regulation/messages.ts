import type { CheckChoice, CheckView, FindingsView, FreshString, KeptCheck, KeptSoFar, PastCheck } from "../made/desk";
import type { HarpChoice, ShownChoice } from "../made/tune";

/** What the page asks of the listener. Every question has a number, and its answer bears it. */
export type CheckAsk = { id: number } & (
  | { do: "choice"; harp: HarpChoice; few: string[] | undefined; minutes: number | undefined; shown: ShownChoice }
  | { do: "past"; harp: HarpChoice; at: string; shown: ShownChoice }
  | { do: "so far"; kept: KeptCheck }
  | { do: "sound"; blocks: MessagePort; rateHz: number }
  | { do: "begin"; kept: KeptCheck; shown: ShownChoice }
  | { do: "pause"; is: boolean }
  | { do: "skip" }
  | { do: "show"; shown: ShownChoice }
  | { do: "own sound"; from: number; to: number | undefined }
  | { do: "judge"; kept: KeptCheck; at: string; beside: number | undefined; shown: ShownChoice }
  | { do: "judge past"; place: number; beside: number | undefined; shown: ShownChoice }
  | { do: "beside"; place: number | undefined; shown: ShownChoice }
  | { do: "pages"; called: string; shown: ShownChoice }
  | { do: "csv"; shown: ShownChoice }
  | { do: "record"; device: string; next: number }
  | { do: "leave" }
);

/** What the listener tells; what nobody asked for has the number 0. */
export type CheckTell = { id: number } & (
  | { is: "choice"; choice: CheckChoice }
  | { is: "past"; fresh: FreshString[]; checks: PastCheck[] }
  | { is: "so far"; far: KeptSoFar }
  | { is: "view"; view: CheckView; kept: KeptCheck | undefined }
  | { is: "level"; peak: number; silentS: number }
  | { is: "findings"; findings: FindingsView }
  | { is: "pages"; pages: string[] }
  | { is: "csv"; csv: string }
  | { is: "record"; line: string | undefined }
  | { is: "done" }
  | { is: "failed"; why: string }
);
