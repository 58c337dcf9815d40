import { createHash } from "node:crypto";
import { readFileSync, writeFileSync } from "node:fs";
import { readdir } from "node:fs/promises";
import { join } from "node:path";
import type { Plugin } from "vite";

/** Writes the service worker, which is to know every file that was built. */
export function offline(): Plugin {
  let folder = "dist";
  return {
    name: "offline",
    apply: "build",
    configResolved(config) {
      folder = join(config.root, config.build.outDir);
    },
    async closeBundle() {
      const files = await built(folder);
      const hash = createHash("sha256");
      for (const file of files) hash.update(file).update(readFileSync(join(folder, file)));
      const source = readFileSync(new URL("./service-worker.js", import.meta.url), "utf8");
      const worker = source
        .replace("__VERSION__", hash.digest("hex").slice(0, 16))
        .replace('["__FILES__"]', JSON.stringify(["./", ...files]));
      writeFileSync(join(folder, "sw.js"), worker);
    },
  };
}

/** Every file that a visit may need, in a stable order. */
async function built(folder: string): Promise<string[]> {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile() && !/\.(br|gz|map)$|^sw\.js$/.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1))
    .sort();
}
