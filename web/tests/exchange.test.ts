import "fake-indexeddb/auto";

import { existsSync, readFileSync } from "node:fs";
import { deleteDB, openDB } from "idb";
import { beforeAll, beforeEach, expect, test } from "vitest";

import type * as Desk from "../src/made/desk";
import { BrokenOff, Exchange, takeIn } from "../src/keep/exchange";
import { Records } from "../src/keep/records";
import { Settled } from "../src/keep/settled";

let desk: typeof Desk;
let records: Records;
let settled: Settled;

beforeAll(async () => {
  const module = new URL("../src/made/desk_bg.wasm", import.meta.url);
  expect(existsSync(module), "cargo xtask page makes the module").toBe(true);
  desk = await import("../src/made/desk");
  await desk.default({ module_or_path: readFileSync(module) });
});

beforeEach(async () => {
  records?.close();
  settled?.close();
  await Promise.all([deleteDB("sevenflats"), deleteDB("sevenflats exchange")]);
  [records, settled] = await Promise.all([Records.open(), Settled.open()]);
});

const note = (device: string, seq: number, text = "") =>
  JSON.stringify({
    device,
    seq,
    at: "2026-11-26T18:40:00Z",
    kind: "note",
    v: 1,
    body: { harp: null, string: null, text },
  });

type Line = { device: string; seq: number };
const idOf = (line: string) => JSON.parse(line) as Line;

/** A server as plain as can be: it keeps lines, and says all that it has that the page does not name. */
class Other {
  lines: string[] = [];
  asked: { head: { device: string; clock: { ahead_s: number } | null }; lines: string[] }[] = [];
  aheadMs = 0;
  /** The status and the words of every further answer, in place of an exchange. */
  trouble: [number, string] | undefined;
  /** At most so many lines go with one answer. */
  most = 1_000;

  readonly fetch = async (_path: RequestInfo | URL, how?: RequestInit): Promise<Response> => {
    await Promise.resolve();
    if (this.trouble) return new Response(this.trouble[1], { status: this.trouble[0] });
    if (how?.method !== "POST") return this.#answer({ kind: "have", now: this.#now(), held: this.held() });
    const [first = "", ...rest] = (how.body as string).trim().split("\n");
    const head = JSON.parse(first) as { device: string; clock: null; held: []; in_doubt: never[] };
    this.asked.push({ head, lines: rest });
    const apart: Line[] = [];
    let taken = 0;
    for (const line of rest.filter((line) => !this.lines.includes(line))) {
      const at = (one: string) => idOf(one).device === idOf(line).device && idOf(one).seq === idOf(line).seq;
      if (this.lines.some(at)) apart.push(idOf(line));
      else taken += 1;
      this.lines.push(line);
    }
    const lacking = desk.lacking(JSON.stringify(head.held), JSON.stringify(this.held()));
    const lacks = (line: string) => {
      const { device, seq } = idOf(line);
      return lacking.some((one) => one.device === device && one.from <= seq && seq <= one.to);
    };
    const differ = (head.in_doubt as { device: string; places: [number, string][] }[]).flatMap(({ device, places }) =>
      places.flatMap(([seq, sum]) => {
        const own = this.lines.filter((line) => idOf(line).device === device && idOf(line).seq === seq);
        return own.length > 0 && desk.in_doubt(own.join("\n")).sum !== sum ? [{ device, seq }] : [];
      }),
    );
    const inDoubt = (line: string) =>
      differ.some((one) => one.device === idOf(line).device && one.seq === idOf(line).seq);
    const come = this.lines.filter((line) => lacks(line) || inDoubt(line));
    const lines = come.slice(0, this.most);
    const more = come.length > lines.length;
    return this.#answer({ kind: "exchanged", taken, known: 0, apart, bad: [], differ, more }, lines);
  };

  held(): unknown {
    const devices = new Map<string, number[]>();
    for (const line of this.lines)
      devices.set(idOf(line).device, [...(devices.get(idOf(line).device) ?? []), idOf(line).seq]);
    const held = JSON.parse(
      desk.held_in({ devices: [...devices].map(([device, places]) => ({ device, places })) }),
    ) as { device: string; sums: unknown }[];
    for (const of of held) {
      const own = this.lines.filter((line) => idOf(line).device === of.device);
      of.sums = [[0, desk.in_doubt(own.join("\n")).sum]];
    }
    return held;
  }

  #now = () => new Date(1_795_718_400_000 + this.aheadMs).toISOString();

  #answer(head: object, lines: string[] = []): Response {
    return new Response([JSON.stringify({ device: "desk", ...head }), ...lines, ""].join("\n"));
  }
}

const exchange = (other: { fetch: typeof fetch }, stopped = () => false) =>
  new Exchange({ records, settled, desk, fetch: other.fetch, now: () => 1_795_718_400_000, stopped }).run();

const lines = async () => (await records.lines()).trim().split("\n").sort();

test("each gets what only the other had, and then nothing goes", async () => {
  const other = new Other();
  other.lines = [note("desk", 1), note("desk", 2), note("tablet", 1)];
  await records.append([1, 2, 3].map((seq) => note(records.device, seq)));
  const came = await exchange(other);
  expect(came).toMatchObject({ with: "desk", sent: 3, got: 3, apart: [], refused: [] });
  expect(await lines()).toEqual([...other.lines].sort());
  other.asked = [];
  expect(await exchange(other)).toMatchObject({ sent: 0, got: 0 });
  expect(other.asked).toEqual([]);
  expect((await settled.last())?.with).toBe("desk");
});

test("what comes in pieces comes whole", async () => {
  const other = new Other();
  other.most = 7;
  other.lines = Array.from({ length: 100 }, (_, at) => note("desk", at + 1, "x".repeat(100)));
  expect(await exchange(other)).toMatchObject({ got: 100 });
  expect(await lines()).toEqual([...other.lines].sort());
});

test("two records in one place are both kept here and there, and named", async () => {
  const other = new Other();
  other.lines = [note("phone", 1, "of one")];
  await records.append([note("phone", 1, "of the other")]);
  const came = await exchange(other);
  expect(came?.apart).toEqual(["phone 1"]);
  expect(await lines()).toEqual([...other.lines].sort());
  expect(other.lines.length).toBe(2);
  expect((await exchange(other))?.apart).toEqual([]);
});

test("a line that is no record is named, and not asked for again and again", async () => {
  const other = new Other();
  const bad = note("desk", 2).replace('"v":1', '"v":0');
  other.lines = [note("desk", 1), bad, note("desk", 3)];
  other.most = 1;
  const came = await exchange(other);
  expect(came?.got).toBe(2);
  expect(came?.refused.map(({ line }) => line)).toEqual(["desk 2"]);
  expect(other.asked.length).toBeLessThan(8);
});

test("the other's clock is told with half of the way taken off", async () => {
  const other = new Other();
  other.aheadMs = 90_000;
  await records.append([note(records.device, 1)]);
  await exchange(other);
  expect(other.asked[0]?.head.clock).toEqual({ ahead_s: 90 });
});

test.each([
  [404, "", undefined],
  [204, "", undefined],
  [200, "<!doctype html>", undefined],
  [507, '{"trouble":"full","why":"no room"}', { code: "full", why: "no room" }],
  [500, "what a server says that is none of ours", { code: "other", why: "500" }],
] as const)("an answer of %i is taken for what it is", async (status, words, trouble) => {
  const other = new Other();
  await records.append([note(records.device, 1)]);
  const fetch = () => Promise.resolve(new Response(status === 204 ? null : words, { status }));
  expect((await exchange({ fetch }))?.trouble).toEqual(trouble);
  expect(await lines()).toEqual([note(records.device, 1)]);
  expect(other.lines).toEqual([]);
});

test("a server that goes away in the middle costs nothing, and the rest goes the next time", async () => {
  const other = new Other();
  other.most = 10;
  other.lines = Array.from({ length: 40 }, (_, at) => note("desk", at + 1));
  let left = 3;
  const fetch: typeof globalThis.fetch = (path, how) => {
    if (left-- > 0) return other.fetch(path, how);
    return Promise.reject(new TypeError("gone"));
  };
  const came = await exchange({ fetch });
  expect(came).toMatchObject({ got: 20, trouble: { code: "away" } });
  const again = await exchange(other);
  expect([again?.got, again?.trouble]).toEqual([20, undefined]);
  expect(await lines()).toEqual([...other.lines].sort());
});

test("what is to be broken off writes nothing more", async () => {
  const other = new Other();
  other.lines = [note("desk", 1)];
  await expect(exchange(other, () => true)).rejects.toBeInstanceOf(BrokenOff);
  expect(await records.isEmpty()).toBe(true);
});

test("a place that is taken by another record loses neither", async () => {
  await records.append([note(records.device, 1, "first")]);
  await records.append([note(records.device, 1, "second"), note(records.device, 2)]);
  expect(await lines()).toEqual(
    [note(records.device, 1, "first"), note(records.device, 1, "second"), note(records.device, 2)].sort(),
  );
});

test("of two records the earlier may come later: it is kept, too", async () => {
  const late = note("phone", 1, "late").replace("18:40", "19:40");
  await records.append([late]);
  const came = await takeIn(desk, records, [note("phone", 1, "early")]);
  expect(came.apart).toEqual([{ device: "phone", seq: 1 }]);
  expect(await lines()).toEqual([late, note("phone", 1, "early")].sort());
});

test("with no room left nothing is taken by halves", async () => {
  const db = await openDB("sevenflats");
  db.close();
  const add = IDBObjectStore.prototype.add;
  let left = 5;
  IDBObjectStore.prototype.add = function (this: IDBObjectStore, ...what: Parameters<typeof add>) {
    if (left-- <= 0) throw new DOMException("full", "QuotaExceededError");
    return add.apply(this, what);
  };
  try {
    const other = new Other();
    other.lines = Array.from({ length: 10 }, (_, at) => note("desk", at + 1));
    const came = await exchange(other);
    expect(came?.trouble?.code).toBe("full_here");
    expect(await records.isEmpty()).toBe(true);
    left = 100;
    const again = await exchange(other);
    expect([again?.got, again?.trouble]).toEqual([10, undefined]);
  } finally {
    IDBObjectStore.prototype.add = add;
  }
});
