import type { PaperAnswer, PaperPlaceLine, RemarkLine, TouchedLine } from "../made/programme";
import type { ProgrammeWords } from "../words/programme";

/** What is wrong with a line, or to be looked at again, in the reader's words. */
export function remarkWords(words: ProgrammeWords, remark: RemarkLine): string {
  const [one = "", other = ""] = remark.about;
  return words.paper.remarks[remark.code]?.(one, other, remark.foot ?? "") ?? remark.code;
}

/** A place as it is called; a mark without a bar stands by itself, in its frame. */
export function placeName(words: ProgrammeWords, line: PaperPlaceLine): string {
  const after = line.mark !== undefined && line.after_mark > 0 ? words.paper.afterMark(line.mark, line.after_mark) : "";
  if (line.bar === "") return after;
  return line.beat === "" ? words.bar(line.bar) : capital(words.place(line.bar, line.beat));
}

/** From where to where something broken is wanted otherwise. */
export function touchedWords(words: ProgrammeWords, read: PaperAnswer, one: TouchedLine): string {
  const own = words.paper;
  const movements = read.movements.length;
  const what = own.touched[one.what as keyof typeof own.touched](one.name, one.sounds);
  const from = one.from === undefined ? own.fromBeginning : own.fromBar(one.from);
  const of = movements > 1 ? ` ${own.ofMovement(one.movement)}` : "";
  const inOther = one.until_movement !== undefined && one.until_movement !== one.movement;
  const until =
    one.until_movement === undefined
      ? own.toEnd
      : one.until === undefined
        ? own.toMovement(one.until_movement)
        : own.toBar(one.until) + (inOther ? ` ${own.ofMovement(one.until_movement)}` : "");
  return `${what} ${from}${of} ${until}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
