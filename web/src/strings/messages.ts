import type {
  AheadAsk,
  AheadView,
  HarpView,
  MonthShown,
  MovedAsk,
  MovedView,
  PlotView,
  StepView,
  StringPlace,
  StringsAsk,
  StringWritten,
} from "../made/desk";

/** What the page asks of the reader. Every question has a number, and its answer bears it. */
export type ReadAsk = { id: number } & (
  | { do: "open" }
  | { do: "harp"; ask: StringsAsk }
  | { do: "plot"; string: string; ask: StringsAsk }
  | { do: "months"; ask: StringsAsk }
  | { do: "ahead"; ahead: AheadAsk; ask: StringsAsk }
  | { do: "moved"; moved: MovedAsk; ask: StringsAsk }
  | { do: "steps"; string: string; ask: StringsAsk }
  | { do: "is new"; harp: string }
  | { do: "written"; place: StringPlace; what: StringWritten }
);

export type ReadAnswer =
  | { is: "open"; harps: string[]; notRead: number; readMs: number; knowMs: number }
  | { is: "harp"; harp: HarpView }
  | { is: "plot"; plot: PlotView }
  | { is: "months"; months: MonthShown[] }
  | { is: "ahead"; ahead: AheadView }
  | { is: "moved"; moved: MovedView }
  | { is: "steps"; steps: StepView[] }
  | { is: "is new"; isNew: boolean }
  | { is: "line"; line: string };

export type ReadTell = ({ id: number } & ReadAnswer) | { id: number; is: "failed"; why: string };
