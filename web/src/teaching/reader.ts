// One student's file, read in a thread of its own: it has no way to the diary, and whatever is in the file, the page goes on.
import init, { StudentFile } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import type { StudentAsk, StudentTell } from "./messages";

/** Bytes that are read at once. */
const PIECE = 4 << 20;
const LINE_END = 10;

const ready = init({ module_or_path: wasm });
let student: StudentFile | undefined;

onmessage = ({ data }: MessageEvent<StudentAsk>) => {
  void answer(data)
    .catch((error: unknown): StudentTell => {
      return { id: data.id, is: "failed", why: error instanceof Error ? error.message : String(error) };
    })
    .then((told) => postMessage(told));
};

async function answer(ask: StudentAsk): Promise<StudentTell> {
  await ready;
  if (ask.do === "view") {
    if (!student) throw new Error("nothing was read");
    return { id: ask.id, is: "view", view: student.view(ask.aheadMin, ask.shown) };
  }
  student = await read(ask.file);
  return { id: ask.id, is: "read", records: student.records(), bad: student.bad(), mark: student.mark() };
}

async function read(file: Blob): Promise<StudentFile> {
  const own = new StudentFile();
  // the beginning of a line whose end has not come yet
  let begun: Uint8Array[] = [];
  for (let at = 0; at < file.size; at += PIECE) {
    const bytes = new Uint8Array(await file.slice(at, at + PIECE).arrayBuffer());
    const end = bytes.lastIndexOf(LINE_END) + 1;
    if (end > 0) {
      own.take(joined([...begun, bytes.subarray(0, end)]));
      begun = [];
    }
    if (end < bytes.length) begun.push(bytes.subarray(end));
  }
  own.take(joined(begun));
  return own;
}

function joined(parts: Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
