import "fake-indexeddb/auto";

import { expect, test } from "vitest";

import { Records } from "./records";

/** A line of this device, as far as the shelf looks at it. */
const line = (device: string, seq: number) => JSON.stringify({ device, seq, kind: "made up" });

test("lines that come while others are being written are each written once", async () => {
  const records = await Records.open();
  const of = (...places: number[]) => places.map((seq) => line(records.device, seq));
  await Promise.all([records.append(of(1)), records.append(of(2, 3)), records.append(of(4))]);
  expect(records.waiting).toEqual([]);
  expect((await records.lines()).trim().split("\n")).toEqual(of(1, 2, 3, 4));
  const last = records.append(of(5));
  expect(await records.next()).toBe(6);
  await last;
});
