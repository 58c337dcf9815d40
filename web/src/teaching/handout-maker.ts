// Makes a handout's pages, in a thread of its own; the same Rust as the command.
import init, { handout } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import type { HandoutAsk, HandoutTell } from "./messages";

const ready = init({ module_or_path: wasm });
const tell = (message: HandoutTell) => postMessage(message);

onmessage = ({ data: { id, choice } }: MessageEvent<HandoutAsk>) =>
  void ready
    .then(() => tell({ id, is: "pages", pages: handout(choice) }))
    .catch((error: unknown) => tell({ id, is: "failed", why: error instanceof Error ? error.message : String(error) }));
