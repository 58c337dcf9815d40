// Beside every built file that shrinks: itself in brotli and in gzip, as small as they get.
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";

const SHRINKS = /\.(html|m?js|css|wasm|svg|webmanifest|json|txt)$/;
const folder = new URL("./dist/", import.meta.url).pathname;

for (const name of readdirSync(folder, { recursive: true })) {
  if (!SHRINKS.test(name)) continue;
  const path = join(folder, name);
  const bytes = readFileSync(path);
  const params = {
    [constants.BROTLI_PARAM_QUALITY]: 11,
    [constants.BROTLI_PARAM_LGWIN]: 22,
    [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length,
  };
  writeFileSync(`${path}.br`, brotliCompressSync(bytes, { params }));
  writeFileSync(`${path}.gz`, gzipSync(bytes, { level: 9 }));
}
