import { expect, test } from "vitest";
import { fileName } from "./saved";

// signs that file systems forbid: Windows names them in ‘Naming Files, Paths, and Namespaces’, from memory
test("a file's name is her own as far as file systems have it", () => {
  expect(fileName(" Ana  María ", "2026-11-26", "ndjson")).toBe("Ana María-2026-11-26.ndjson");
  expect(fileName("", "2026-11-26", "ndjson")).toBe("sevenflats-2026-11-26.ndjson");
  expect(fileName("../..\\a:b*?\u0000\u202e", "2026-11-26", "txt")).toBe("a b-2026-11-26.txt");
  expect(fileName("ü".repeat(200), "2026-11-26", "txt")).toBe(`${"ü".repeat(60)}-2026-11-26.txt`);
});
