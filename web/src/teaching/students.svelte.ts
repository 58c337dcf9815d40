import type { ShownChoice, StudentView } from "../made/desk";
import type { Page } from "../page.svelte";
import { Asking, type Unnumbered } from "../programme/asked";
import type { StudentAsk, StudentTell } from "./messages";

/** The longest file that is opened, bytes. */
export const LONGEST = 64_000_000;
/** Most files that are open at once. */
export const MOST = 40;

/** Why a file shows nothing. */
export type FileTrouble = "large" | "empty" | "foreign" | "failed";

type Told<Is extends StudentTell["is"]> = Extract<StudentTell, { is: Is }>;

/** One file that is open. All of it is here and in its reader, and is gone when it is closed. */
export class Student {
  readonly key: number;
  readonly file: string;
  /** The file's name without its ending. */
  readonly ownName: string;
  name: string = $state("");
  view: StudentView | undefined = $state.raw();
  trouble: FileTrouble | undefined = $state();
  /** What the reader said where it failed. */
  why = $state("");
  mark = "";

  #reader = new Asking<StudentAsk, StudentTell>(
    () => new Worker(new URL("./reader.ts", import.meta.url), { type: "module" }),
  );

  constructor(key: number, file: string) {
    this.key = key;
    this.file = file;
    this.ownName = file.replace(/\.(ndjson|jsonl|json|txt)$/i, "") || file;
    this.name = this.ownName;
  }

  async #ask<Is extends StudentTell["is"]>(ask: Unnumbered<StudentAsk>, is: Is): Promise<Told<Is>> {
    const tell = await this.#reader.ask(ask);
    if (tell.is !== is) throw new Error(tell.is);
    return tell as Told<Is>;
  }

  async read(file: Blob): Promise<void> {
    if (file.size > LONGEST) return this.fail("large");
    const { records, bad, mark } = await this.#ask({ do: "read", file }, "read");
    if (records > 0) this.mark = mark;
    else this.fail(bad > 0 ? "foreign" : "empty");
  }

  async look(shown: ShownChoice): Promise<void> {
    const aheadMin = -new Date().getTimezoneOffset();
    this.view = (await this.#ask({ do: "view", aheadMin, shown }, "view")).view;
  }

  fail(trouble: FileTrouble, why = ""): void {
    this.close();
    [this.trouble, this.why] = [trouble, why];
  }

  close(): void {
    this.#reader.end();
  }
}

/** The students' files that are open, each for itself. Nothing of them is kept, and nothing goes anywhere. */
export class Students {
  open: Student[] = $state.raw([]);
  /** A file that was open already, and the student as whom it is. */
  twins: [string, string][] = $state.raw([]);
  /** Files that were too many. */
  tooMany = $state(0);

  #next = 1;
  #shown: ShownChoice | undefined;
  #turn: Promise<unknown> = Promise.resolve();

  /** Opens files, one after the other: several at once would want much room. */
  take(files: File[], shown: ShownChoice): void {
    this.#shown = shown;
    this.twins = [];
    const room = Math.max(0, MOST - this.open.length);
    this.tooMany = Math.max(0, files.length - room);
    const new_ = files.slice(0, room).map((file) => [new Student(this.#next++, file.name), file] as const);
    this.open = [...this.open, ...new_.map(([student]) => student)];
    for (const [student, file] of new_) this.#turn = this.#turn.then(() => this.#read(student, file));
  }

  async #read(student: Student, file: File): Promise<void> {
    const isOpen = () => this.open.includes(student);
    if (!isOpen()) return;
    try {
      await student.read(file);
      if (student.trouble || !isOpen()) return;
      const twin = this.open.find((one) => one !== student && one.mark === student.mark);
      if (twin) {
        this.twins = [...this.twins, [student.file, twin.name]];
        this.close(student);
      } else if (this.#shown) await student.look(this.#shown);
    } catch (error) {
      // closed while it was read
      if (isOpen()) student.fail("failed", error instanceof Error ? error.message : String(error));
    }
  }

  /** The reader's language or names have changed. */
  async look(shown: ShownChoice): Promise<void> {
    this.#shown = shown;
    const read = this.open.filter((student) => student.view);
    await Promise.all(read.map((student) => student.look(shown).catch(() => undefined)));
  }

  close(student: Student): void {
    student.close();
    this.open = this.open.filter((one) => one !== student);
  }

  closeAll(): void {
    for (const student of this.open) student.close();
    [this.open, this.twins, this.tooMany] = [[], [], 0];
  }
}

const opened = new WeakMap<Page, Students>();

/** The files of a page: they stay open while she looks at something else. */
export function studentsOf(page: Page): Students {
  const own = opened.get(page) ?? new Students();
  opened.set(page, own);
  return own;
}
