import { openDB, type IDBPDatabase } from "idb";

/** Records at a time: few enough for a small device, many enough that asking costs little. */
const BATCH = 1_000;

interface Kept {
  device: string;
  seq: number;
  line: string;
}

/** Reads the diary of this browser by device and place, and writes nothing; where there is none it is empty, and stays so. */
async function opened(): Promise<IDBPDatabase | undefined> {
  try {
    return await openDB("sevenflats", undefined, {
      upgrade: (_db, _old, _new, transaction) => transaction.abort(),
    });
  } catch {
    // it was not there: what was begun is undone
    return undefined;
  }
}

/** Hands all lines over, some at a time; gives how many there were. */
export async function readAll(take: (lines: string) => void): Promise<number> {
  const db = await opened();
  if (!db?.objectStoreNames.contains("records")) return (db?.close(), 0);
  let read = 0;
  let after: IDBKeyRange | undefined;
  for (;;) {
    const batch = (await db.getAll("records", after, BATCH)) as Kept[];
    const last = batch.at(-1);
    if (!last) break;
    take(batch.map((kept) => kept.line).join("\n"));
    read += batch.length;
    after = IDBKeyRange.lowerBound([last.device, last.seq], true);
  }
  db.close();
  return read;
}

/** How many records there are. */
export async function countAll(): Promise<number> {
  const db = await opened();
  const count = db?.objectStoreNames.contains("records") ? await db.count("records") : 0;
  db?.close();
  return count;
}
