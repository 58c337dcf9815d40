import type { HandoutChoice, HandoutPage, ShownChoice, StudentView } from "../made/desk";

/** What the page asks of the maker of handouts, and what it answers. */
export interface HandoutAsk {
  id: number;
  choice: HandoutChoice;
}

export type HandoutTell = { id: number; is: "pages"; pages: HandoutPage[] } | { id: number; is: "failed"; why: string };

/** What is asked of the reader of one student's file. */
export type StudentAsk = { id: number } & (
  { do: "read"; file: Blob } | { do: "view"; aheadMin: number; shown: ShownChoice }
);

export type StudentTell = { id: number } &
  /** `mark` is the same for two files of the same records. */
  (
    | { is: "read"; records: number; bad: number; mark: string }
    | { is: "view"; view: StudentView }
    | { is: "failed"; why: string }
  );
