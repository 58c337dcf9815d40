// Foresees where the strings stand, in a thread of its own: a diary of years takes a while, and a round does not wait for it.
import init, { type ForeseeAsk, type Foreseen } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { readKnown } from "../keep/known";

export type ForeseeTell =
  { is: "foreseen"; foreseen: Foreseen; readMs: number; foreseeMs: number } | { is: "failed"; why: string };

const tell = (message: ForeseeTell) => postMessage(message);

onmessage = ({ data }: MessageEvent<ForeseeAsk>) => {
  foresee(data).then(tell, (error: unknown) =>
    tell({ is: "failed", why: error instanceof Error ? error.message : String(error) }),
  );
};

async function foresee(ask: ForeseeAsk): Promise<ForeseeTell> {
  await init({ module_or_path: wasm });
  const from = performance.now();
  const { kept } = await readKnown();
  const read = performance.now();
  const foreseen = kept.foresee(ask);
  return { is: "foreseen", foreseen, readMs: read - from, foreseeMs: performance.now() - read };
}
