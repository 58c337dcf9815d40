import type { Exchanged } from "../keep/settled";
import type {
  DiaryCheckView,
  GivenView,
  GivingAsk,
  Corrected,
  LeavesView,
  ListedRound,
  RecordPlace,
  ShownChoice,
  Written,
} from "../made/desk";

/** What became of a file. */
export interface TakenIn {
  taken: number;
  known: number;
  apart: number;
  troubles: { line: number; why: string }[];
}

/** What the page asks of the shelf. */
export type ShelfAsk = { id: number } & (
  | { do: "rounds" }
  | { do: "leaves"; kind: string | undefined; after: number; count: number; shown: ShownChoice }
  | { do: "check" }
  | { do: "import"; file: Blob }
  | { do: "export" }
  | { do: "giving" }
  | { do: "given"; giving: GivingAsk; count: number; shown: ShownChoice }
  | { do: "given file"; giving: GivingAsk }
  | { do: "exchange" }
  | { do: "last exchange" }
  | { do: "wrong"; written: Written }
  | { do: "write"; place: RecordPlace; written: Written }
  | { do: "correct"; place: RecordPlace; corrected: Corrected }
);

type Answers =
  | { is: "rounds"; rounds: ListedRound[] }
  | { is: "leaves"; view: LeavesView; tookMs: number }
  | { is: "check"; check: DiaryCheckView }
  | { is: "imported"; imported: TakenIn }
  | { is: "exported"; file: Blob }
  | { is: "giving"; groups: string[]; usual: string[]; harps: string[] }
  | { is: "given"; given: GivenView }
  | { is: "exchanged"; exchanged: Exchanged | undefined; renamed: boolean; news: boolean }
  | { is: "wrong"; wrong: string[] }
  | { is: "line"; line: string }
  | { is: "broken off" }
  | { is: "failed"; why: string; full: boolean };

export type Answer = Answers;
export type ShelfTell = { id: number } & Answers;

/** Said beside questions, and not answered: an exchange is to be broken off, or may go on. */
export type ShelfWord = { word: "stop" | "go on" | "changed" };
