import type { Page } from "playwright-core";
import type { Words } from "../../src/words/english";
import { inventedDiary } from "./invented-diary";

/** A file that is given to the page. */
export interface Given {
  name: string;
  text: string;
}

/** The harp of every student: by its name it would be known wherever it was kept. */
export const STUDENTS_HARP = "a student’s harp";
const WEEK_MS = 7 * 86_400_000;

/** Practice of an invented student, a sitting a week up to 25 November 2026: nobody practised it. */
function practice(device: string, from: number, weeks: number): string[] {
  const off = (off_cents: number) => ({ off_cents, u95_cents: 0.6 });
  return Array.from({ length: weeks }, (_, week) => {
    const tuned = Array.from({ length: 8 }, (_, at) => ({
      drill: "octave",
      string: "C4",
      against: "C5",
      guess: at % 4 === 3 ? "low" : "high",
      before: off(6 + at),
      after: off((at % 2 === 0 ? 1 : -1) * (8 - week / 2 + at / 4)),
      target_hz: 246.94,
      found: null,
      left: null,
      took_s: 40,
    }));
    const sizes = [40, 20, 12, 8, 6, 5, 4].map((size_cents, at) => ({
      hz: 440,
      size_cents: size_cents / (1 + week / 6),
      right: at < 5,
    }));
    const body = {
      harp: STUDENTS_HARP,
      took_s: 900,
      by_ear: tuned,
      sizes,
      asked: [
        { about: "pin", right: true },
        { about: "tuner_name", right: week % 2 === 0 },
      ],
      counted: [{ per_s: 2, said_per_s: 2.4 }],
    };
    const at = new Date(Date.UTC(2026, 10, 25, 16) - (weeks - 1 - week) * WEEK_MS).toISOString();
    return JSON.stringify({ device, seq: from + week, at, kind: "practice", v: 1, body });
  });
}

interface Line {
  device: string;
  seq: number;
  at: string;
  body: { round?: { device: string; seq: number } };
}

/** The same records, each in the place in which its device would have written it. */
function inOrder(lines: string[]): string[] {
  const records = lines.map((line) => JSON.parse(line) as Line);
  records.sort((a, b) => Date.parse(a.at) - Date.parse(b.at) || a.seq - b.seq);
  const place = new Map(records.map(({ seq }, at) => [seq, at + 1]));
  return records.map((record, at) => {
    const { round } = record.body;
    const body = round ? { ...record.body, round: { ...round, seq: place.get(round.seq) ?? 0 } } : record.body;
    return JSON.stringify({ ...record, seq: at + 1, body });
  });
}

/** The file of an invented student: rounds and practice. */
export function student(name: string, device: string, rounds = 20, weeks = 4): Given {
  const lines = inventedDiary(rounds).map((line) =>
    line.replaceAll('"invented"', JSON.stringify(device)).replaceAll("pedal C1 G7", STUDENTS_HARP),
  );
  const all = inOrder([...lines, ...practice(device, lines.length + 1, weeks)]);
  return { name: `${name}.ndjson`, text: all.join("\n") + "\n" };
}

/** The page Teaching. */
export async function teaching(page: Page, url: string, words: Words): Promise<void> {
  await page.goto(`${url}#teaching`);
  await page.getByRole("heading", { level: 1, name: words.pages.teaching, exact: true }).waitFor();
}

/** Opens files by the button. */
export async function openFiles(page: Page, label: string, files: Given[]): Promise<void> {
  const chosen = files.map(({ name, text }) => ({ name, mimeType: "application/x-ndjson", buffer: Buffer.from(text) }));
  await page.getByLabel(label, { exact: true }).setInputFiles(chosen);
}

/** A file too long for any handing over: it is made in the page. */
export async function openHuge(page: Page, label: string, name: string, bytes: number): Promise<void> {
  const input = await page.getByLabel(label, { exact: true }).elementHandle();
  await page.evaluate(
    ([input, name, bytes]) => {
      const data = new DataTransfer();
      data.items.add(new File([new Uint8Array(bytes).fill(32)], name));
      (input as HTMLInputElement).files = data.files;
      (input as HTMLInputElement).dispatchEvent(new Event("change", { bubbles: true }));
    },
    [input, name, bytes] as const,
  );
}

/** What the browser keeps: how many records, in which stores, and all of its text. */
export function kept(page: Page): Promise<{ records: number; stores: string; text: string }> {
  return page.evaluate(async () => {
    const databases = (await indexedDB.databases()).sort((a, b) => (a.name ?? "").localeCompare(b.name ?? ""));
    let [records, text] = [0, JSON.stringify({ ...localStorage }) + JSON.stringify({ ...sessionStorage })];
    for (const { name } of databases) {
      const db = await new Promise<IDBDatabase>((resolve) => {
        const asked = indexedDB.open(name ?? "");
        asked.onsuccess = () => resolve(asked.result);
      });
      for (const store of db.objectStoreNames) {
        const all = await new Promise<unknown[]>((resolve) => {
          const asked = db.transaction(store).objectStore(store).getAll();
          asked.onsuccess = () => resolve(asked.result);
        });
        if (store === "records") records = all.length;
        text += JSON.stringify(all);
      }
      db.close();
    }
    return { records, stores: JSON.stringify(databases), text };
  });
}
