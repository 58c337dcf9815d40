import { expect } from "vitest";
import type { BrowserContext, Page } from "playwright-core";
import { keptLines } from "./minutes";

/** What the page let sound, as it went to the loudspeaker. */
export interface Sounded {
  samples: number[];
  peak: number;
}

declare global {
  interface Window {
    sounded: { samples: Float32Array; peak: number }[];
    /** Sounds that were begun and are not over. */
    sounding: number;
    mostAtOnce: number;
  }
}

/** Notes every buffer that the page fills, and how many sound at once. */
export async function listenTo(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    window.sounded = [];
    window.sounding = 0;
    window.mostAtOnce = 0;
    const copy = AudioBuffer.prototype.copyToChannel;
    AudioBuffer.prototype.copyToChannel = function (samples, channel, start) {
      const peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      window.sounded.push({ samples: Float32Array.from(samples), peak });
      copy.call(this, samples, channel, start);
    };
    const start = AudioBufferSourceNode.prototype.start;
    AudioBufferSourceNode.prototype.start = function (when) {
      window.sounding += 1;
      window.mostAtOnce = Math.max(window.mostAtOnce, window.sounding);
      this.addEventListener("ended", () => (window.sounding -= 1));
      start.call(this, when);
    };
  });
}

/** Samples a second of all made sounds. */
const RATE = 48_000;

/** The pitch of a harmonic sound between two frequencies, Hz, from its samples alone: where it is most like itself a period
 * later, then many periods later. */
export function pitchOf(samples: Float32Array, lowest: number, highest: number): number {
  const half = Math.floor(samples.length / 2);
  const alike = (lag: number) => {
    let [both, own, later] = [0, 0, 0];
    for (let at = 0; at < half; at += 1) {
      const [a, b] = [samples[at] ?? 0, samples[at + lag] ?? 0];
      both += a * b;
      own += a * a;
      later += b * b;
    }
    return both / Math.sqrt(own * later);
  };
  /** The best lag between two, to a part of a sample by the parabola through its neighbours. */
  const best = (from: number, to: number) => {
    const lags = Array.from({ length: to - from + 1 }, (_, at) => from + at);
    const values = lags.map(alike);
    const top = values.indexOf(Math.max(...values));
    const [a, b, c] = [values[top - 1] ?? 0, values[top] ?? 0, values[top + 1] ?? 0];
    return from + top + (a - c) / (2 * (a - 2 * b + c));
  };
  let period = best(Math.floor(RATE / highest), Math.ceil(RATE / lowest));
  for (const periods of [4, 16, 48]) {
    const lag = periods * period;
    if (lag + period > half) break;
    period = best(Math.round(lag - period / 3), Math.round(lag + period / 3)) / periods;
  }
  return RATE / period;
}

/** The samples of the last sound, brought here. */
export async function lastSound(page: Page): Promise<Float32Array> {
  const bytes = await page.evaluate(() => {
    const samples = window.sounded.at(-1)?.samples ?? new Float32Array();
    const bytes = new Uint8Array(samples.buffer);
    let text = "";
    for (let at = 0; at < bytes.length; at += 8192) text += String.fromCharCode(...bytes.subarray(at, at + 8192));
    return btoa(text);
  });
  const buffer = Buffer.from(bytes, "base64");
  return new Float32Array(buffer.buffer.slice(buffer.byteOffset, buffer.byteOffset + buffer.byteLength));
}

/** By how many cents the second of two strings in turn is higher than the first, in the harp's octave 4 (F3 to E4). */
export function centsBetween(sound: Float32Array): number {
  // 1.3 s each and 0.25 s between them; from a tenth of a second on, and to one before the fade
  const piece = (from: number) => sound.slice(Math.round(from * RATE), Math.round((from + 1.1) * RATE));
  const first = pitchOf(piece(0.05), 160, 360);
  // near the first: an octave taken for its half would be taken so twice
  const second = pitchOf(piece(1.6), first / 1.08, first * 1.08);
  return 1200 * Math.log2(second / first);
}

/** A part of the practice that the diary keeps: how long it took, and the answers of its one drill. */
export interface KeptPart {
  took_s: number;
  answers: Record<string, unknown>[];
}

/** What the diary keeps of practice, in order, once there is so much of it. */
export async function keptParts(page: Page, atLeast = 1): Promise<KeptPart[]> {
  type Body = { took_s: number; sizes: never[]; asked: never[]; counted: never[] };
  const all = async () => {
    const lines = (await keptLines(page)).map((line) => JSON.parse(line) as { kind: string; body: Body });
    const bodies = lines.filter(({ kind }) => kind === "practice").map(({ body }) => body);
    return bodies.map(({ took_s, sizes, asked, counted }) => ({ took_s, answers: [...sizes, ...asked, ...counted] }));
  };
  // it is written some moments after it was answered
  await expect.poll(async () => (await all()).length).toBeGreaterThanOrEqual(atLeast);
  return all();
}

const LETTERS = "CDEFGAB";

/** A string's place among all letters, from C0 up, by its name as harps count: octaves from the top, E down to F (common
 * practice, no source). */
function placeOf(name: string): number {
  const letter = LETTERS.indexOf(name.slice(-1));
  const number = Number(name.slice(0, -1));
  return 7 * ((letter < 3 ? 8 : 7) - number) + letter;
}

/** Which of the offered choices is right, from 0, by the question and what the picture says to a screen reader; told for pins
 * and octave numbers of a harp up to G7. */
export function reckoned(question: string, picture: string, choices: string[]): number | undefined {
  const [, at, known] = /String (\d+) is (\d[A-G])\./.exec(picture) ?? [];
  const first = placeOf(known ?? "") - (Number(at) - 1);
  const turned = /^Which pin turns (\d[A-G])\?/.exec(question)?.[1];
  if (turned !== undefined) return placeOf(turned) - first;
  const pin = /Pin (\d+) is marked/.exec(picture)?.[1];
  if (pin !== undefined) return choices.findIndex((one) => placeOf(one) === first + Number(pin) - 1);
  const top = placeOf("0G");
  const marked = /Marked: string (\d+) from the top/.exec(picture)?.[1];
  if (marked !== undefined) return choices.findIndex((one) => placeOf(one) === top - (Number(marked) - 1));
  const found = /^Which string is (\d[A-G])\?/.exec(question)?.[1];
  if (found === undefined) return undefined;
  const mark = new RegExp(`([a-z]): string ${top - placeOf(found) + 1} from the top`).exec(picture)?.[1];
  return choices.indexOf(mark ?? "");
}
