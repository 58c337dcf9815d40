// The shelf: all that reads the diary, in a thread of its own, so that neither the page nor the ear waits for it.
import init, * as desk from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { BrokenOff, Exchange, takeIn } from "../keep/exchange";
import { isFull, Records } from "../keep/records";
import { Settled } from "../keep/settled";
import type { Answer, ShelfAsk, ShelfTell, ShelfWord, TakenIn } from "./messages";

/** Lines of a file that are held against the diary at once. */
const LINES = 256;

const ready = Promise.all([init({ module_or_path: wasm }), Records.open(), Settled.open()]);
/** What was read of the diary; nothing once it has changed. */
let reader: Promise<desk.Reader> | undefined;
let stopped = false;

const tell = (message: ShelfTell) => postMessage(message);

/** What was asked before is done first. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<ShelfAsk | ShelfWord>) => {
  if ("word" in data) {
    if (data.word === "changed") forget();
    else stopped = data.word === "stop";
    return;
  }
  // an exchange may take a while, and waits more than it works: she reads meanwhile
  const before = data.do === "exchange" ? ready : turn;
  const done = before
    .then(() => answer(data))
    .then((answered) => tell({ id: data.id, ...answered }))
    .catch((error: unknown) => tell({ id: data.id, ...failed(error) }));
  if (data.do !== "exchange") turn = done;
};

function failed(error: unknown): Answer {
  if (error instanceof BrokenOff) return { is: "broken off" };
  return { is: "failed", why: error instanceof Error ? error.message : String(error), full: isFull(error) };
}

async function answer(ask: ShelfAsk): Promise<Answer> {
  switch (ask.do) {
    case "rounds":
      return { is: "rounds", rounds: (await read()).rounds() };
    case "leaves": {
      const from = performance.now();
      const view = (await read()).leaves(ask.kind, ask.after, ask.count, ask.shown);
      return { is: "leaves", view, tookMs: performance.now() - from };
    }
    case "check":
      return { is: "check", check: (await read()).check(new Date().toISOString()) };
    case "import":
      return { is: "imported", imported: await imported(ask.file) };
    case "export":
      return { is: "exported", file: await exported() };
    case "giving":
      return { is: "giving", groups: desk.all_groups(), usual: desk.usual_groups(), harps: (await read()).harps() };
    case "given":
      return { is: "given", given: (await read()).given(ask.giving, ask.count, ask.shown) };
    case "given file": {
      const lines = (await read()).given_file(ask.giving);
      return { is: "exported", file: new Blob([lines], { type: "application/x-ndjson" }) };
    }
    case "exchange":
      return exchanged();
    case "last exchange":
      return { is: "exchanged", exchanged: await (await ready)[2].last(), renamed: false, news: false };
    case "wrong":
      return { is: "wrong", wrong: desk.wrong_in(ask.written) };
    case "write":
      return { is: "line", line: desk.written_line(ask.place, ask.written) };
    case "correct":
      return { is: "line", line: desk.correction_line(ask.place, ask.corrected) };
  }
}

/** The diary, read in pieces. */
function read(): Promise<desk.Reader> {
  reader ??= readAll();
  reader.catch(() => (reader = undefined));
  return reader;
}

async function readAll(): Promise<desk.Reader> {
  const [, records] = await ready;
  const reading = new desk.Reader();
  for await (const lines of records.pieces()) reading.push(lines.join("\n"));
  reading.sort();
  return reading;
}

function forget(): void {
  const old = reader;
  reader = undefined;
  void old?.then((read) => read.free()).catch(() => undefined);
}

async function imported(file: Blob): Promise<TakenIn> {
  const [, records] = await ready;
  const lines = (await file.text()).replace(/^\ufeff/, "").split("\n");
  const sum: TakenIn = { taken: 0, known: 0, apart: 0, troubles: [] };
  try {
    for (let at = 0; at < lines.length; at += LINES) {
      const came = await takeIn(desk, records, lines.slice(at, at + LINES));
      sum.taken += came.taken;
      sum.known += came.known;
      sum.apart += came.apart.length;
      sum.troubles.push(...came.refused.map(({ at: line, why }) => ({ line: at + line, why })));
    }
  } finally {
    forget();
  }
  return sum;
}

async function exported(): Promise<Blob> {
  const [, records] = await ready;
  const parts: string[] = [];
  for await (const lines of records.pieces()) parts.push(lines.join("\n") + "\n");
  return new Blob(parts, { type: "application/x-ndjson" });
}

async function exchanged(): Promise<Answer> {
  const [, records, settled] = await ready;
  await records.renamed();
  const exchange = new Exchange({
    records,
    settled,
    desk,
    fetch: (path, how) => fetch(new URL(String(path), new URL("../", self.location.href)), how),
    now: Date.now,
    stopped: () => stopped,
  });
  try {
    const came = await exchange.run();
    const own = came?.apart.some((name) => name.startsWith(`${records.device} `)) ?? false;
    // another copy of this browser's data writes under its name
    if (own) await records.rename();
    const news = came !== undefined && came.got + came.apart.length > 0;
    if (news) forget();
    return { is: "exchanged", exchanged: came, renamed: own, news };
  } catch (error) {
    // what came before it was broken off is here
    forget();
    throw error;
  }
}
