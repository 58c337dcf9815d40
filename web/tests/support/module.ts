import { readFileSync } from "node:fs";
import init, { Tune, type HeardLine } from "../../src/made/tune";
import { RATE_HZ } from "./samples";

const NOW = "2026-01-01T00:00:00Z";
const BLOCK = 1024;

/** The page's own module, outside a browser. */
export async function loaded(): Promise<void> {
  await init({ module_or_path: readFileSync(new URL("../../src/made/tune_bg.wasm", import.meta.url)) });
}

/** Samples of 16 bits through the module, in blocks as the page takes them. */
export function heard(samples: Int16Array, a4Hz: number): HeardLine[] {
  const tune = Tune.begin(
    {
      harp: { kind: "pedal", lowest: "C1", highest: "G7", open: undefined, unmoved: ["C1", "D1", "G7"] },
      a4_hz: a4Hz,
      usual_a4_hz: undefined,
      order: "from_middle",
      middle_cents: 3,
      outer_cents: 5,
      touch_up: undefined,
      setting: undefined,
      discless: [],
    },
    { language: "en", scientific: false, other_side: false },
    RATE_HZ,
    "check",
    1,
    NOW,
  );
  const lines = [...tune.act({ act: "begin" }, NOW).heard];
  const floats = Float32Array.from(samples, (sample) => sample / 32_768);
  for (let from = 0; from < floats.length; from += BLOCK) {
    lines.push(...tune.push(floats.subarray(from, from + BLOCK), false, NOW).heard);
  }
  tune.free();
  return lines;
}
