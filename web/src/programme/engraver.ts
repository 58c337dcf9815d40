// The engraver: verovio, as its makers built it, in a thread of its own.
import { VerovioToolkit } from "verovio/esm";
import engine from "verovio/wasm?url";
import type { EngraveAsk, EngraveTell, System } from "./messages";

interface Engine {
  default(): Promise<object>;
}

const toolkit = import(/* @vite-ignore */ engine)
  .then((made: Engine) => made.default())
  .then((module) => new VerovioToolkit(module));

let turn: Promise<unknown> = toolkit;

onmessage = ({ data }: MessageEvent<EngraveAsk>) => {
  turn = turn
    .then(() => engraved(data))
    .then((systems): EngraveTell => ({ id: data.id, is: "systems", systems }))
    .catch((error: unknown): EngraveTell => ({ id: data.id, is: "failed", why: String(error) }))
    .then((tell) => postMessage(tell));
};

/** Each system by itself, as a page of its own. The last is left out where the piece goes on: it may not be full. */
async function engraved(ask: EngraveAsk): Promise<System[]> {
  const tk = await toolkit;
  tk.setOptions({
    pageWidth: Math.round((ask.width * 100) / ask.scale),
    pageHeight: 100,
    scale: ask.scale,
    adjustPageHeight: true,
    pageMarginTop: 20,
    pageMarginBottom: 20,
    pageMarginLeft: 50,
    pageMarginRight: 10,
    breaks: "auto",
    header: "none",
    footer: "none",
    svgViewBox: true,
    mnumInterval: 1,
    minLastJustification: 0.6,
    smuflTextFont: "none",
    // a tempo would touch the metre under it
    defaultBottomMargin: 1.4,
  });
  if (!tk.loadData(ask.music)) throw new Error("verovio cannot read it");
  const count = tk.getPageCount();
  const systems: System[] = [];
  for (let page = 1; page <= count; page += 1) {
    if (ask.more && page === count && count > 1) break;
    const system = asSystem(tk.renderToSVG(page));
    if (system) systems.push(system);
  }
  return systems;
}

/** A drawing without what a page's policy forbids, and which measures are in it. */
function asSystem(drawn: string): System | undefined {
  const measures = [...drawn.matchAll(/ id="bar-(\d+)"/g)].map((found) => Number(found[1]));
  const box = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(drawn);
  if (measures.length === 0 || !box) return undefined;
  const svg = drawn
    .replace(/<style[\s\S]*?<\/style>/g, "")
    .replace(/<desc>[\s\S]*?<\/desc>/g, "")
    // the note of a tempo, no larger than its figures ask for
    .replace(/(<tspan font-family="[^"]*" font-size=")720px/g, (_, head: string) => `${head}540px`)
    .replace(
      /<text([^>]*)>\s*<tspan([^>]*)>\s*<tspan([^>]*)>\s*<tspan([^>]*)>\u2063(\d+)\u2063/g,
      '<text data-mark="$5"$1><tspan$2><tspan$3><tspan$4>',
    );
  return {
    from: Math.min(...measures),
    until: Math.max(...measures),
    svg: svg.replace("<svg ", '<svg aria-hidden="true" '),
    width: Number(box[1]),
    height: Number(box[2]),
  };
}
