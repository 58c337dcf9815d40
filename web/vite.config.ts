import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";
import { guide } from "./guide";
import { offline } from "./offline";

/** Loaded only when something asks for it: what reads the diary, the demo, the other languages, pages behind the first. */
const LATER =
  /demo|desk|german|french|Care|Guide|HarpPart|HearingTrouble|pictured|[Hh]andout|Students|Teaching|[Pp]ractice|Diary|End|Settings|Strings|plots|TakeA|[Pp]rogramme|[Rr]egulation|listener|diary|reader|book|shelf|exchange|settled|asked|planner|engraver|verovio|leland|foresee|figures/;

/** The guide's pictures lie apart: each is loaded when it is seen. */
const folder = (name: string | undefined) =>
  /\.webp$/.test(name ?? "") ? "later/pictures" : LATER.test(name ?? "") ? "later" : "assets";

export default defineConfig({
  base: "./",
  plugins: [svelte(), guide(), offline()],
  build: {
    target: "es2022",
    // every file by its own name: a policy without inline data, and nothing grows unseen
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: {
      output: {
        entryFileNames: "assets/[name]-[hash].js",
        chunkFileNames: (chunk) => `${folder(chunk.name)}/[name]-[hash].js`,
        assetFileNames: (asset) => `${folder(asset.names[0])}/[name]-[hash][extname]`,
      },
    },
  },
  worker: {
    format: "es",
    rollupOptions: {
      output: {
        entryFileNames: (chunk) => `${folder(chunk.name)}/[name]-[hash].js`,
        chunkFileNames: (chunk) => `${folder(chunk.name)}/[name]-[hash].js`,
        assetFileNames: (asset) => `${folder(asset.names[0])}/[name]-[hash][extname]`,
      },
    },
  },
});
