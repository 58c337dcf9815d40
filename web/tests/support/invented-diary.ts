import type { Page } from "playwright-core";
import { roundBegun } from "./round-begun";

/** The name that the page has for a harp that was chosen there. */
const HARP = "pedal C1 G7";
/** Two strings' figures, invented. */
const TOML = `kind = "pedal47"

[materials.gut]
density_kg_m3 = 1300

[[string]]
name = "G3"
material = "gut"
length_mm = 800
gauge_mm = 1.45

[[string]]
name = "C5"
material = "gut"
length_mm = 360
gauge_mm = 1.05
`;
const DAY_MS = 86_400_000;
const LETTERS = ["C", "D", "E", "F", "G", "A", "B"];
const SEMITONES = [0, 2, 4, 5, 7, 9, 11];

/** The strings of the harp, C1 to G7, and what each sounds with its pedal up: a semitone below the white key, A at 440 Hz. */
const STRINGS = Array.from({ length: 47 }, (_, at): [string, number] => {
  const octave = 1 + Math.floor(at / 7);
  const key = 12 * (octave + 1) + (SEMITONES[at % 7] ?? 0) - 1;
  return [`${LETTERS[at % 7]}${octave}`, 440 * 2 ** ((key - 69) / 12)];
});

/**
 * An invented diary, a round a day up to 25 November 2026: nobody kept it, and harp, strings, faults and figures are made up.
 * One pin slips (3A), one string of octave 2 is old (2E), one gauge is written otherwise than the harp's file has it (3C),
 * and two spares lie in the drawer for 4G.
 */
export function inventedDiary(rounds = 60): string[] {
  const first = Date.UTC(2026, 10, 26) - rounds * DAY_MS;
  const lines: string[] = [];
  const write = (at: number, kind: string, body: object): number => {
    const seq = lines.length + 1;
    const time = new Date(at).toISOString().replace(/\.\d+/, "");
    lines.push(JSON.stringify({ device: "invented", seq, at: time, kind, v: 1, body }));
    return seq;
  };
  write(first, "harp", { harp: HARP, toml: TOML });
  for (const [string, on, gauge_mm] of [
    ["E6", "2019-02-01", null],
    ["G3", "2026-02-01", 1.45],
    ["C5", "2026-03-01", 1.2],
  ] as const)
    write(first, "string_fitted", { harp: HARP, string, on, material: "gut", gauge_mm, used: false, by: "herself" });
  for (const [string, gauge_mm, change] of [
    ["G3", 1.45, 2],
    ["E5", 0.97, 1],
  ] as const)
    write(first, "spares", { harp: HARP, string, material: "gut", gauge_mm, bought: "2026-09-01", change });
  const visit = { harp: HARP, on: "2026-01-20", who: "the technician", done: "regulated", note: "" };
  write(first, "visit", visit);
  for (let day = 0; day < rounds; day += 1) {
    const at = (hour: number) => first + day * DAY_MS + hour * 3_600_000;
    const seq = write(at(18), "round", roundBegun(HARP, TOML));
    write(at(18.2), "round_over", {
      round: { device: "invented", seq },
      finished: true,
      minutes: 6.25,
      left: 0,
      again: [],
      strings: STRINGS.map(([string, hz], place) => told(string, hz, place, day, rounds)),
    });
    write(at(18.3), "air", {
      harp: null,
      temperature_c: 20 + (day % 7) / 2,
      humidity_percent: 45 + 8 * Math.sin(day / 9),
    });
  }
  return lines;
}

/** Found moved by the weather, the same for all, and a little of its own; tuned where that is more than two cents. */
function told(string: string, target_hz: number, place: number, day: number, rounds: number): object {
  const slips = string === "A4" && day + 25 > rounds ? -9 : 0;
  const own = ((day * 31 + place * 17) % 97) / 97 - 0.5;
  const off = 2.5 * Math.sin(day / 9) + own + slips;
  const kept = (at_s: number, off_cents: number) => ({
    at_s,
    target_hz,
    heard_hz: target_hz * 2 ** (off_cents / 1200),
    off_cents,
    u95_cents: 0.4 + Math.abs(off_cents) / 37,
    b: 1.3e-4,
    aside: null,
  });
  const before = kept(7 * place, off);
  const turned = Math.abs(off) > 2;
  const after = turned ? kept(7 * place + 4.1, 0.2) : before;
  return { string, before, after, plucks: turned ? 3 : 1, state: "in_tune", fitted: false };
}

/** Lays a diary into the browser's memory, a part at a time: a long one would take its import minutes. */
export async function layIn(page: Page, lines: string[]): Promise<void> {
  for (let at = 0; at < lines.length; at += 500) {
    await page.evaluate(
      (part) =>
        new Promise<void>((resolve, reject) => {
          const asked = indexedDB.open("sevenflats");
          asked.onerror = () => reject(asked.error as Error);
          asked.onsuccess = () => {
            const tx = asked.result.transaction("records", "readwrite");
            for (const line of part) {
              const { device, seq } = JSON.parse(line) as { device: string; seq: number };
              tx.objectStore("records").add({ device, seq, line });
            }
            tx.oncomplete = () => (asked.result.close(), resolve());
            tx.onerror = () => reject(tx.error as Error);
          };
        }),
      lines.slice(at, at + 500),
    );
  }
}
