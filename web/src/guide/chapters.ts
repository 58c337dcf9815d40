import * as made from "virtual:guide";
import type { Chapter, Group } from "./shape";

/** The guide, as it was when the page was built. */
export const chapters = made.chapters as Chapter[];
export const groups = made.groups as Group[];
