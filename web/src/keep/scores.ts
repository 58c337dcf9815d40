import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Wished } from "../programme/piece.svelte";

/** A score that its reader asked to keep, and how she wants it planned. */
export interface KeptScore {
  sha256: string;
  name: string;
  bytes: Uint8Array<ArrayBuffer>;
  part: string | undefined;
  repeats: boolean;
  wished: Wished | undefined;
  /** Its place in the evening. */
  place: number;
}

interface Shelf extends DBSchema {
  scores: { key: string; value: KeptScore };
}

/** Apart from the diary, which is only ever added to: a score goes when she says so. */
let shelf: Promise<IDBPDatabase<Shelf>> | undefined;

function opened(): Promise<IDBPDatabase<Shelf>> {
  shelf ??= openDB<Shelf>("sevenflats scores", 1, {
    upgrade(db) {
      db.createObjectStore("scores", { keyPath: "sha256" });
    },
  });
  return shelf;
}

export async function keepScore(score: KeptScore): Promise<void> {
  await (await opened()).put("scores", score);
}

export async function forgetScore(sha256: string): Promise<void> {
  await (await opened()).delete("scores", sha256);
}

/** Every score kept, in the order of the evening. */
export async function keptScores(): Promise<KeptScore[]> {
  const scores = await (await opened()).getAll("scores");
  return scores.sort((one, other) => one.place - other.place);
}
