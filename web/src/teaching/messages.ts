import type { HandoutChoice, HandoutPage } from "../made/desk";

/** What the page asks of the maker of handouts, and what it answers. */
export interface HandoutAsk {
  id: number;
  choice: HandoutChoice;
}

export type HandoutTell = { id: number; is: "pages"; pages: HandoutPage[] } | { id: number; is: "failed"; why: string };
