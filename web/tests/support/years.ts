import type { Page } from "playwright-core";
import { roundBegun } from "./round-begun";

/**
 * Lays the diary of many years into the browser's database, before the page reads it: a round a day on 47 strings, of which
 * eight were turned, and the air; of the harp that is named so; the same as `bench/src/diary.rs` measures without a browser. All of it is made up.
 */
export function years(page: Page, rounds: number, harp = "big"): Promise<{ records: number; bytes: number }> {
  return page.evaluate(
    async ({ rounds, begun }) => {
      const [TURNED, DEVICE] = [8, "years"];
      const names = [...Array(47).keys()].map((at) => `${"CDEFGAB"[at % 7] ?? ""}${1 + Math.floor(at / 7)}`);
      const kept = (at_s: number, target_hz: number, off_cents: number) => ({
        at_s,
        target_hz,
        heard_hz: target_hz * 2 ** (off_cents / 1200),
        off_cents,
        u95_cents: 0.3 + Math.abs(off_cents) / 37,
        b: 1.3e-4 * (1 + at_s / 997),
        aside: null,
      });
      const string = (day: number, at: number, name: string) => {
        const target = 32.703 * 2 ** (at / 7);
        const found = kept(7 * at, target, ((day * 31 + at * 17) % 97) / 17 - 3);
        const left = kept(7 * at + 4.1, target, ((day + at) % 13) / 13 - 0.4);
        const turned = (at + TURNED * day) % 47 < TURNED;
        const after = turned ? left : found;
        return { string: name, before: found, after, plucks: turned ? 3 : 1, state: "in_tune", fitted: false };
      };
      const db = await new Promise<IDBDatabase>((resolve, reject) => {
        const open = indexedDB.open("sevenflats", 1);
        open.onsuccess = () => resolve(open.result);
        open.onerror = () => reject(new Error("the database does not open"));
      });
      let [seq, bytes] = [0, 0];
      for (let from = 0; from < rounds; from += 100) {
        const tx = db.transaction("records", "readwrite");
        const add = (at: number, kind: string, body: unknown) => {
          seq += 1;
          const time = new Date(1e12 + at * 1000).toISOString().replace(".000", "");
          const line = JSON.stringify({ device: DEVICE, seq, at: time, kind, v: 1, body });
          bytes += line.length;
          tx.objectStore("records").add({ device: DEVICE, seq, line });
        };
        for (let day = from; day < Math.min(rounds, from + 100); day += 1) {
          const start = 86_400 * day;
          add(start, "round", begun);
          const round = { device: DEVICE, seq };
          const strings = names.map((name, at) => string(day, at, name));
          add(start + 720, "round_over", { round, finished: true, minutes: 6.25, left: 0, again: [], strings });
          add(start + 1080, "air", { harp: null, temperature_c: 20 + (day % 7) / 2, humidity_percent: 45 });
        }
        await new Promise((resolve) => (tx.oncomplete = resolve));
      }
      db.close();
      return { records: seq, bytes };
    },
    { rounds, begun: roundBegun(harp, 'kind = "pedal47"') },
  );
}

/** From now on the longest time that the page's own thread was busy, in milliseconds. */
export async function watchTasks(page: Page): Promise<() => Promise<number>> {
  await page.evaluate(() => {
    const tasks: number[] = ((window as { tasks?: number[] }).tasks = []);
    new PerformanceObserver((list) => tasks.push(...list.getEntries().map((one) => one.duration))).observe({
      entryTypes: ["longtask"],
    });
  });
  return () => page.evaluate(() => Math.max(0, ...((window as { tasks?: number[] }).tasks ?? [])));
}
