import { openDB, type DBSchema, type IDBPDatabase } from "idb";
import type { Typed } from "../programme/on-paper.svelte";

/** A part on paper as it was typed. */
export interface KeptPaper {
  key: string;
  typed: Typed;
  /** Its place in the evening. */
  place: number;
}

interface Shelf extends DBSchema {
  papers: { key: string; value: KeptPaper };
}

/** A shelf of its own, apart from the diary and from scores: a page of before is not kept waiting for a new one. */
let shelf: Promise<IDBPDatabase<Shelf>> | undefined;

function opened(): Promise<IDBPDatabase<Shelf>> {
  shelf ??= openDB<Shelf>("sevenflats papers", 1, {
    upgrade(db) {
      db.createObjectStore("papers", { keyPath: "key" });
    },
  });
  return shelf;
}

export async function keepPaper(paper: KeptPaper): Promise<void> {
  await (await opened()).put("papers", paper);
}

export async function forgetPaper(key: string): Promise<void> {
  await (await opened()).delete("papers", key);
}

export async function keptPapers(): Promise<KeptPaper[]> {
  return (await opened()).getAll("papers");
}
