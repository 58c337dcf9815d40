import { readFileSync } from "node:fs";
import { join } from "node:path";

/** Samples a second of every sound that is made for the checks. */
export const RATE_HZ = 48_000;

/** What is true of one pluck; see crates/sevenflats/examples/page_round.rs. */
export interface TruePluck {
  at_s: number;
  string: string;
  target_hz: number;
  heard_hz: number;
  off_cents: number;
  turned: boolean;
}

export interface Truth {
  rate_hz: number;
  seconds: number;
  a4_hz: number;
  harp: string;
  plucks: TruePluck[];
}

export function truthOf(sounds: string, name: string): Truth {
  return JSON.parse(readFileSync(join(sounds, `${name}.json`), "utf8")) as Truth;
}

/** The samples of a WAV file of one channel and 16 bits. */
export function samplesOf(sounds: string, name: string): Int16Array {
  const file = readFileSync(join(sounds, `${name}.wav`));
  let at = 12;
  while (file.toString("latin1", at, at + 4) !== "data") at += 8 + file.readUInt32LE(at + 4);
  const bytes = file.readUInt32LE(at + 4);
  return new Int16Array(file.buffer.slice(file.byteOffset + at + 8, file.byteOffset + at + 8 + bytes));
}

/** A room in which nobody plays: noise 65 dB under full scale, which is 35 dB under an ordinary pluck of the made-up strings. */
export function quiet(seconds: number): Int16Array {
  let state = 1;
  return Int16Array.from({ length: seconds * RATE_HZ }, () => {
    // a linear congruence with the multiplier of Numerical Recipes, from memory; any that is odd would do
    state = (Math.imul(state, 1_664_525) + 1) >>> 0;
    return (state >>> 26) - 32;
  });
}

/** What a microphone gives that was switched off. */
export function silent(seconds: number): Int16Array {
  return new Int16Array(seconds * RATE_HZ);
}

/** A WAV file of one channel and 16 bits. */
export function wav(samples: Int16Array): Buffer {
  const head = Buffer.alloc(44);
  const bytes = 2 * samples.length;
  head.write("RIFF", 0, "latin1");
  head.writeUInt32LE(36 + bytes, 4);
  head.write("WAVEfmt ", 8, "latin1");
  head.writeUInt32LE(16, 16);
  head.writeUInt16LE(1, 20);
  head.writeUInt16LE(1, 22);
  head.writeUInt32LE(RATE_HZ, 24);
  head.writeUInt32LE(2 * RATE_HZ, 28);
  head.writeUInt16LE(2, 32);
  head.writeUInt16LE(16, 34);
  head.write("data", 36, "latin1");
  head.writeUInt32LE(bytes, 40);
  return Buffer.concat([head, Buffer.from(samples.buffer, samples.byteOffset, bytes)]);
}
