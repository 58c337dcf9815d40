import type { EarAsk, EarChoice, EarKept, EarView, Practised, RecordPlace, StudentView } from "../made/desk";
import type { ShownChoice } from "../made/tune";

/** What the page asks of the Worker. Every question has a number, and its answer bears it. */
export type PracticeAsk = { id: number } & (
  | { do: "choice"; ask: EarAsk; shown: ShownChoice }
  | { do: "sound"; blocks: MessagePort; rateHz: number }
  | { do: "begin"; ask: EarAsk; shown: ShownChoice }
  | { do: "step"; step: EarStep }
  | { do: "show"; shown: ShownChoice }
  | { do: "kept"; tookS: number }
  | { do: "record"; place: RecordPlace; practised: Practised }
  | { do: "past"; aheadMin: number; shown: ShownChoice }
  | { do: "leave" }
);

/** What she does: the string cannot be read, what she says of it, it is there, the next one. */
export type EarStep =
  { is: "pass" } | { is: "say"; guess: "high" | "low" | undefined } | { is: "there" } | { is: "next" };

/** What the Worker tells; what nobody asked for has the number 0. */
export type PracticeTell = { id: number } & (
  | { is: "choice"; choice: EarChoice }
  | { is: "view"; view: EarView }
  | { is: "level"; peak: number; silentS: number }
  | { is: "kept"; kept: EarKept | undefined }
  | { is: "over" }
  | { is: "past"; past: StudentView }
  | { is: "record"; line: string }
  | { is: "done" }
  | { is: "failed"; why: string }
);
