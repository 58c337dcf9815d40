// The reader: the diary of this browser, read once and asked often, in a thread of its own.
import init, { KeptStrings, string_line } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { countAll } from "../keep/reading";
import { readKnown } from "../keep/known";
import type { ReadAnswer, ReadAsk, ReadTell } from "./messages";

let kept: KeptStrings | undefined;
/** Records that were read; a diary of another number is read anew. */
let count = -1;
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
  const own = (kept ??= new KeptStrings());
  switch (ask.do) {
    case "add":
      own.add(ask.line);
      own.know();
      count += 1;
      return { is: "done" };
    case "harp":
      return { is: "harp", harp: own.harp(ask.ask) };
    case "plot":
      return { is: "plot", plot: own.plot(ask.string, ask.ask) };
    case "months":
      return { is: "months", months: own.months(ask.ask) };
    case "steps":
      return { is: "steps", steps: own.steps(ask.string, ask.ask) };
    case "is new":
      return { is: "is new", isNew: own.is_new(ask.harp) };
  }
}

/** Reads all, where there is another number of records than was read. */
async function open(): Promise<ReadAnswer> {
  const again = kept === undefined || (await countAll()) !== count;
  let [readMs, knowMs] = [0, 0];
  if (again) {
    kept?.free();
    kept = undefined;
    ({ kept, count, readMs, knowMs } = await readKnown());
  }
  kept ??= new KeptStrings();
  return { is: "open", harps: kept.harps(), notRead: kept.not_read(), again, readMs, knowMs };
}
