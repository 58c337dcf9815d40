// Plans in WebAssembly are the command's, to the last cost.
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, test } from "vitest";
import type { PlanWishes } from "../src/made/programme";
import { byCommand, byModule, loaded, SCORES } from "./support/planned";

/** Told by the command only: the harp's name, and doubts of the reading in its own words; and whole bars, by name. */
const COMMANDS = ["harp", "diagnostics", "whole_measures"];

const files = readdirSync(SCORES).filter((name) => name.endsWith(".musicxml"));

type Way = [name: string, options: string[], change: (wishes: PlanWishes) => void];
const WAYS: Way[] = [
  ["as usual", [], () => undefined],
  ["the fewest moves", ["--fewest"], (wishes) => (wishes.fewest = true)],
  [
    "written names, slow feet",
    ["--spelling", "written", "--tau", "0.8"],
    (wishes) => Object.assign(wishes, { written_spelling: true, tau_s: 0.8 }),
  ],
  [
    "F stuck, 5A gone, a dead disc",
    ["--stuck", "F=sharp", "--missing", "5A", "--dead", "4F=sharp"],
    (wishes) =>
      Object.assign(wishes, {
        stuck: [{ pedal: "F", to: "sharp" }],
        missing: ["A2"],
        dead: [{ string: "F3", to: "sharp" }],
      }),
  ],
  [
    "a pin, both feet freer",
    ["--pin", "2:1:G=sharp", "--allow", "cross,two"],
    (wishes) =>
      Object.assign(wishes, {
        pins: [{ measure: 2, beat: "1", pedal: "G", to: "sharp" }],
        cross: true,
        two: true,
      }),
  ],
];

beforeAll(loaded);

test("there are scores to try", () => expect(files.length).toBeGreaterThanOrEqual(14));

/** All ways for all scores, or a fixed sample: each score as usual, and one way more for every other one. */
const sample = (score: number, way: number) => way === 0 || (score % 2 === 0 && way === 1 + ((score / 2) % 4));
const long = process.env["SEVENFLATS_LONG"] !== undefined;
const TRIED = files.flatMap((file, score) =>
  WAYS.filter((_, way) => long || sample(score, way)).map((way) => [file, ...way] as const),
);

test.each(TRIED)("%s, %s", (file, _, options, change) => {
  const lever = file.startsWith("lever-");
  if (lever && options.length > 0) return;
  const command = byCommand(join(SCORES, file), options, lever);
  const module = byModule(join(SCORES, file), change, lever);
  for (const field of Object.keys(command).filter((field) => !COMMANDS.includes(field))) {
    expect(module[field], field).toEqual(command[field]);
  }
});
