import { readAll, readOn, type ReadSoFar } from "./reading";
import { KeptStrings } from "../made/desk";

/** The diary of this browser as it is known, and how far it was read. */
export interface KnownSoFar {
  kept: KeptStrings;
  so: ReadSoFar;
  readMs: number;
  knowMs: number;
}

/** The diary as it is known now; the module `desk` is loaded before. */
export async function readKnown(): Promise<KnownSoFar> {
  const before = performance.now();
  const kept = new KeptStrings();
  const so = await readAll((lines) => kept.take(lines));
  const read = performance.now();
  if (!kept.all_taken()) {
    // a round went on behind its end: this once every record is kept
    await readAll((lines) => kept.add(lines));
    kept.know();
  }
  return { kept, so, readMs: read - before, knowMs: performance.now() - read };
}

/** The same with what was written since; where that is not to be had without reading all, all is read. */
export async function knownOn(known: KnownSoFar): Promise<KnownSoFar> {
  const before = performance.now();
  let isEnough = true;
  const so = await readOn(known.so, (lines) => (isEnough &&= known.kept.add_behind(lines)));
  if (!so || !isEnough) {
    known.kept.free();
    return readKnown();
  }
  const read = performance.now();
  if (so.count > known.so.count) known.kept.know();
  return { kept: known.kept, so, readMs: read - before, knowMs: performance.now() - read };
}
