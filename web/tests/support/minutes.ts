import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { Score, usual_wishes } from "../../src/made/programme";
import init, { KeptStrings, Tune, type FewView, type Foreseen } from "../../src/made/desk";
import type { RoundChoice } from "../../src/made/tune";
import { inject } from "vitest";
import { english as words } from "../../src/words/english";
import type { Visit } from "./browser";
import { layIn } from "./invented-diary";
import { PEDAL_47, SHOWN } from "./planned";
import { quiet, RATE_HZ } from "./samples";

const BLOCK = 1024;

const CHOICE: RoundChoice = {
  harp: PEDAL_47,
  a4_hz: 440,
  usual_a4_hz: undefined,
  order: "from_middle",
  middle_cents: 3,
  outer_cents: 5,
  touch_up: undefined,
  setting: undefined,
  discless: [],
};

/** The page's module that reads the diary, outside a browser. */
export async function loaded(): Promise<void> {
  await init({ module_or_path: readFileSync(new URL("../../src/made/desk_bg.wasm", import.meta.url)) });
}

/** What is foreseen from these lines. */
export function foreseen(lines: string[], now: string, played: [string, number][][] = []): Foreseen {
  const kept = new KeptStrings();
  kept.take(lines.join("\n"));
  if (!kept.all_taken()) throw new Error("the diary was not taken");
  const ask = { choice: CHOICE, now, temperature_c: 24, humidity_percent: 40, played, all_played: true };
  const told = kept.foresee(ask);
  kept.free();
  return told;
}

/** How much each string of a piece is played, by the planner's module, which is loaded before. */
export function playedIn(piece: string): [string, number][] {
  const score = Score.read(new TextEncoder().encode(piece), undefined, true);
  score.plan(PEDAL_47, usual_wishes(), SHOWN);
  const played = score.played().map(({ string, weight }): [string, number] => [string, weight]);
  score.free();
  return played;
}

/** All lines that the browser keeps. */
export function keptLines(page: Page): Promise<string[]> {
  return page.evaluate(
    () =>
      new Promise<string[]>((resolve, reject) => {
        const asked = indexedDB.open("sevenflats");
        asked.onerror = () => reject(asked.error as Error);
        asked.onsuccess = () => {
          const all = asked.result.transaction("records").objectStore("records").getAll();
          all.onsuccess = () => resolve((all.result as { line: string }[]).map((kept) => kept.line));
          all.onerror = () => reject(all.error as Error);
        };
      }),
  );
}

/** What a diary of these lines knows, read from its beginning. */
export function replayed(lines: string[]): { not_read: number } {
  const kept = new KeptStrings();
  kept.add(lines.join("\n"));
  kept.know();
  const told = { not_read: kept.not_read() };
  kept.free();
  return told;
}

/** A round of some minutes by the module alone. */
export class Few {
  readonly #tune: Tune;

  constructor(
    private readonly told: Foreseen,
    minutes: number,
    private readonly at: string,
  ) {
    this.#tune = Tune.begin(CHOICE, SHOWN, RATE_HZ, "check", 1, at);
    this.#tune.within(minutes, at);
    this.#tune.foresee(told, at);
    this.#tune.act({ act: "begin" }, at);
  }

  /** Plays samples of 16 bits, in a quiet room; gives all that was said. */
  hears(samples: Int16Array): string[] {
    const room = [...quiet(1)];
    const floats = Float32Array.from([...room, ...samples, ...room], (sample) => sample / 32_768);
    const said: string[] = [];
    for (let from = 0; from < floats.length; from += BLOCK) {
      const step = this.#tune.push(floats.subarray(from, from + BLOCK), false, this.at);
      said.push(...step.said.map((one) => one.words));
    }
    return said;
  }

  /** All strings, as they were foreseen. */
  get strings(): Foreseen["strings"] {
    return this.told.strings;
  }

  /** Her ear calls a string in tune; how long until the next is known and shown, milliseconds. */
  doneByEar(string: string): number {
    const from = performance.now();
    this.#tune.act({ act: "in_tune_by_ear", string }, this.at);
    this.#tune.few(this.at);
    this.#tune.view();
    return performance.now() - from;
  }

  /** The string that is asked for, as in files. */
  get next(): string | undefined {
    return this.#tune.view().next?.id;
  }

  get view(): FewView {
    const view = this.#tune.few(this.at);
    if (!view) throw new Error("a round without an end");
    return view;
  }

  end(): void {
    this.#tune.free();
  }
}

/** A piece for the harp that plays these notes, each so often, in C: one bar a note and time. Invented. */
function shortPiece(notes: [string, number][]): string {
  const bars = notes.flatMap(([note, times]) => Array.from({ length: times }, () => note));
  const attributes =
    "<attributes><divisions>1</divisions><key><fifths>0</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><clef><sign>G</sign><line>2</line></clef></attributes>";
  const bar = (note: string, at: number) =>
    `<measure number="${at + 1}">${at === 0 ? attributes : ""}<note><pitch><step>${note[0]}</step><octave>${note.slice(1)}</octave></pitch><duration>4</duration><voice>1</voice><type>whole</type></note></measure>`;
  return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><work><work-title>Before the Doors</work-title></work><identification><creator type="composer">Invented for the tests of this project</creator></identification><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list><part id="P1">${bars.map(bar).join("")}</part></score-partwise>`;
}

/** Ten minutes before the doors open, a day after the last round of the diary. */
export const NOW = "2026-11-26T18:20:00Z";
/** What tonight's piece plays: 3A (A4 in files) fell in every one of the last rounds. */
const NOTES: [string, number][] = [
  ["D5", 4],
  ["A4", 3],
  ["D3", 2],
  ["C3", 1],
];

/** Tonight's piece. */
export const DOORS = shortPiece(NOTES);

/** The page with the diary in it. */
export async function opened(browser: Visit, lines: string[]): Promise<Page> {
  await browser.context.clock.setFixedTime(NOW);
  const page = await browser.open(inject("url"));
  await page.waitForFunction(() => indexedDB.databases().then((all) => all.some((db) => db.name === "sevenflats")));
  await page.waitForTimeout(300);
  await layIn(page, lines);
  await page.reload();
  return page;
}

/** Says how many minutes there are, and in which air. */
export async function few(page: Page, own = words): Promise<void> {
  await page.getByRole("checkbox", { name: own.first.few }).check();
  await page.getByLabel(own.first.fewMinutes, { exact: true }).fill("5");
  await page.getByLabel(own.first.fewTemperature, { exact: true }).fill("24");
  await page.getByLabel(own.first.fewHumidity, { exact: true }).fill("40");
}
