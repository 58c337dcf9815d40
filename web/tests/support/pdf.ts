import { execFileSync } from "node:child_process";

/** A word of a printed page: its text, and where it stands, in points from the top left corner. */
export interface PrintedWord {
  text: string;
  left: number;
  top: number;
  right: number;
  bottom: number;
}

/** A page of a PDF, its size in points. */
export interface PrintedPage {
  width: number;
  height: number;
  words: PrintedWord[];
}

const SIGNS: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'" };

/** What another reader, poppler's pdftotext, finds in a PDF. */
export function readPdf(path: string): PrintedPage[] {
  const told = execFileSync("pdftotext", ["-bbox", path, "-"], { encoding: "utf8" });
  const number = (attributes: string, name: string) =>
    Number(new RegExp(`\\b${name}="([-\\d.]+)"`).exec(attributes)?.[1] ?? NaN);
  return [...told.matchAll(/<page ([^>]*)>([\s\S]*?)<\/page>/g)].map(([, head = "", body = ""]) => ({
    width: number(head, "width"),
    height: number(head, "height"),
    words: [...body.matchAll(/<word ([^>]*)>([^<]*)<\/word>/g)].map(([, place = "", text = ""]) => ({
      text: text.replaceAll(/&(\w+);/g, (whole, name: string) => SIGNS[name] ?? whole),
      left: number(place, "xMin"),
      top: number(place, "yMin"),
      right: number(place, "xMax"),
      bottom: number(place, "yMax"),
    })),
  }));
}
