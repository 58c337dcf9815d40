import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

/** What is run by a mode: checks of the page in a real browser, its pictures to be looked at, its figures. */
const INCLUDED: Record<string, string> = { pictures: "tests/pictures.ts", bench: "tests/bench.ts" };

export default defineConfig(({ mode }) => ({
  root: fileURLToPath(new URL("..", import.meta.url)),
  test: {
    include: [INCLUDED[mode] ?? "tests/*.browser.ts"],
    globalSetup: ["tests/support/made.ts"],
    reporters: [fileURLToPath(new URL("support/lines.ts", import.meta.url))],
    // a round takes the time that it takes, and two at once would take each other's processor
    fileParallelism: false,
    testTimeout: mode === "pictures" ? 600_000 : 60_000,
    hookTimeout: 60_000,
  },
}));
