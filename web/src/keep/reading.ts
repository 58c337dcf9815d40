import { openDB, type IDBPDatabase } from "idb";

/** Records at a time: few enough for a small device, many enough that asking costs little. */
const BATCH = 500;

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

/** How far a diary was read. */
export interface ReadSoFar {
  count: number;
  /** The last place of each device. */
  last: Map<string, number>;
}

/** Hands all lines over, some at a time. */
export async function readAll(take: (lines: string) => void): Promise<ReadSoFar> {
  const so: ReadSoFar = { count: 0, last: new Map() };
  const db = await opened();
  if (db?.objectStoreNames.contains("records")) await read(db, undefined, take, so);
  db?.close();
  return so;
}

/** Hands over what came behind the places that were read; nothing is given where records came in between, too. */
export async function readOn(before: ReadSoFar, take: (lines: string) => void): Promise<ReadSoFar | undefined> {
  const db = await opened();
  if (!db?.objectStoreNames.contains("records")) return (db?.close(), undefined);
  const so: ReadSoFar = { count: before.count, last: new Map(before.last) };
  for (const device of await devices(db)) {
    const behind = IDBKeyRange.bound([device, before.last.get(device) ?? -1], [device, Infinity], true);
    await read(db, behind, take, so);
  }
  const count = await db.count("records");
  db.close();
  return count === so.count ? so : undefined;
}

async function read(
  db: IDBPDatabase,
  within: IDBKeyRange | undefined,
  take: (lines: string) => void,
  so: ReadSoFar,
): Promise<void> {
  const some = (range: IDBKeyRange | undefined) => db.getAll("records", range, BATCH) as Promise<Kept[]>;
  for (let next = some(within); ;) {
    const batch = await next;
    const last = batch.at(-1);
    if (!last) return;
    const after = [last.device, last.seq];
    // the database goes on while these are taken
    next = some(within ? IDBKeyRange.bound(after, within.upper, true) : IDBKeyRange.lowerBound(after, true));
    take(batch.map((kept) => kept.line).join("\n"));
    so.count += batch.length;
    for (const { device, seq } of batch) so.last.set(device, seq);
  }
}

async function devices(db: IDBPDatabase): Promise<string[]> {
  const { store } = db.transaction("records");
  const found: string[] = [];
  let cursor = await store.openKeyCursor();
  while (cursor) {
    const [device] = cursor.key as [string, number];
    found.push(device);
    cursor = await store.openKeyCursor(IDBKeyRange.lowerBound([device, Infinity], true));
  }
  return found;
}
