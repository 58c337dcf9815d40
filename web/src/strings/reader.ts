// The reader: the diary of this browser, read once and asked often, in a thread of its own.
import init, { KeptStrings, written } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { countAll, readAll } from "../keep/reading";
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
  if (ask.do === "written") return { is: "line", line: written(ask.place, ask.what) };
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
  const before = performance.now();
  let again = false;
  let read = before;
  if (kept === undefined || (await countAll()) !== count) {
    kept?.free();
    kept = new KeptStrings();
    const own = kept;
    count = await readAll((lines) => own.take(lines));
    read = performance.now();
    if (!own.all_taken()) {
      // a round went on behind its end: this once every record is kept
      await readAll((lines) => own.add(lines));
      own.know();
    }
    again = true;
  }
  const [readMs, knowMs] = [read - before, performance.now() - read];
  return { is: "open", harps: kept.harps(), notRead: kept.not_read(), again, readMs, knowMs };
}
