import "fake-indexeddb/auto";

import { readFileSync } from "node:fs";
import { deleteDB } from "idb";
import { beforeAll, beforeEach, expect, test } from "vitest";

import init from "../src/made/desk";
import { knownOn, readKnown } from "../src/keep/known";
import { Records } from "../src/keep/records";
import { roundBegun } from "./support/round-begun";

const TOML = 'name = "invented"\nkind = "lever"\nlowest = "C2"\nhighest = "A6"\nopen = "Eb"\n';

let records: Records;

beforeAll(async () => {
  await init({ module_or_path: readFileSync(new URL("../src/made/desk_bg.wasm", import.meta.url)) });
});

beforeEach(async () => {
  records?.close();
  await deleteDB("sevenflats");
  records = await Records.open();
});

const record = (device: string, seq: number, kind: string, body: object) =>
  JSON.stringify({ device, seq, at: `2026-11-26T18:${String(seq).padStart(2, "0")}:00Z`, kind, v: 1, body });

const harp = (device: string, seq: number, name: string) => record(device, seq, "harp", { harp: name, toml: TOML });
const begun = (seq: number) => record("a", seq, "round", roundBegun("one", TOML));
const events = (seq: number, round: number) =>
  record("a", seq, "round_events", { round: { device: "a", seq: round }, events: [] });
const over = (seq: number, round: number) =>
  record("a", seq, "round_over", { round: { device: "a", seq: round }, readings: [], broken: [] });

test("what was written since is read on, and is what reading all of it gives", async () => {
  await records.takeIn([harp("a", 1, "one"), begun(2), over(3, 2)], []);
  const first = await readKnown();
  expect([first.kept.harps(), first.so.count]).toEqual([["one"], 3]);
  await records.takeIn([harp("b", 7, "two"), begun(4), events(5, 4), over(6, 4)], []);
  const on = await knownOn(first);
  expect(on.kept).toBe(first.kept);
  expect(on.so).toEqual((await readKnown()).so);
  expect([on.kept.harps().toSorted(), on.kept.not_read()]).toEqual([["one", "two"], 0]);
  // nothing new
  expect((await knownOn(on)).kept).toBe(first.kept);
});

test("what came into earlier places, and a round that goes on behind its end, are read with all the rest", async () => {
  await records.takeIn([harp("a", 5, "one")], []);
  const first = await readKnown();
  await records.takeIn([harp("a", 2, "two")], []);
  const anew = await knownOn(first);
  expect(anew.kept).not.toBe(first.kept);
  expect(anew.kept.harps().toSorted()).toEqual(["one", "two"]);
  await records.takeIn([begun(6), events(7, 6), over(8, 6)], []);
  const ended = await knownOn(anew);
  expect(ended.kept).toBe(anew.kept);
  await records.takeIn([events(9, 6)], []);
  expect((await knownOn(ended)).kept).not.toBe(ended.kept);
});
