// The reader: the diary of this browser, read once and asked often, in a thread of its own.
import init, { string_line } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { knownOn, readKnown, type KnownSoFar } from "../keep/known";
import type { ReadAnswer, ReadAsk, ReadTell } from "./messages";

/** What was read, and how far. */
let known: KnownSoFar | undefined;
const ready = init({ module_or_path: wasm });

/** What was asked before is done first. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<ReadAsk>) => {
  turn = turn
    .then(() => answer(data))
    .then((told) => tell({ id: data.id, ...told }))
    .catch((error: unknown) =>
      tell({ id: data.id, is: "failed", why: error instanceof Error ? error.message : String(error) }),
    );
};

function tell(message: ReadTell): void {
  postMessage(message);
}

async function answer(ask: ReadAsk): Promise<ReadAnswer> {
  if (ask.do === "open") return open();
  if (ask.do === "written") return { is: "line", line: string_line(ask.place, ask.what) };
  const own = (known ?? (await look())).kept;
  switch (ask.do) {
    case "harp":
      return { is: "harp", harp: own.harp(ask.ask) };
    case "plot":
      return { is: "plot", plot: own.plot(ask.string, ask.ask) };
    case "months":
      return { is: "months", months: own.months(ask.ask) };
    case "ahead":
      return { is: "ahead", ahead: own.ahead(ask.ahead, ask.ask) };
    case "moved":
      return { is: "moved", moved: own.moved(ask.moved, ask.ask) };
    case "steps":
      return { is: "steps", steps: own.steps(ask.string, ask.ask) };
    case "is new":
      return { is: "is new", isNew: own.is_new(ask.harp) };
  }
}

/** What was written since is read on. */
async function open(): Promise<ReadAnswer> {
  const { kept, readMs, knowMs } = await look();
  return { is: "open", harps: kept.harps(), notRead: kept.not_read(), readMs, knowMs };
}

async function look(): Promise<KnownSoFar> {
  const before = known;
  // what fails midway is read anew the next time
  known = undefined;
  known = before ? await knownOn(before) : await readKnown();
  return known;
}
