import { defineConfig } from "vitest/config";

export default defineConfig({
  test: { include: ["src/**/*.test.ts", "tests/*.test.ts"], reporters: ["./tests/support/lines.ts"] },
});
