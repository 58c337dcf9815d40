import { openDB, type DBSchema, type IDBPDatabase } from "idb";

/** What an exchange came to. */
export interface Exchanged {
  /** When it ended, ISO. */
  at: string;
  /** The other's name as a device. */
  with: string;
  /** Records that went there, and that came here. */
  sent: number;
  got: number;
  /** Places in which two records claim to be, as the other or we found them: `phone 12`. */
  apart: string[];
  /** What was not taken there or here, and why. */
  refused: { line: string; why: string }[];
  /** Why it was broken off, where it was. */
  trouble?: { code: string; why: string } | undefined;
}

interface Shelf extends DBSchema {
  /** By block of places: the other's sum when all was told, and what lay here then. */
  settled: { key: string; value: string };
  last: { key: string; value: Exchanged };
}

const LAST = "last";

/**
 * What need not be asked again. Apart from the diary, for it is only a memory: where it is lost, all is compared once more.
 */
export class Settled {
  #db: IDBPDatabase<Shelf>;

  private constructor(db: IDBPDatabase<Shelf>) {
    this.#db = db;
  }

  static async open(): Promise<Settled> {
    return new Settled(
      await openDB<Shelf>("sevenflats exchange", 1, {
        upgrade(db) {
          db.createObjectStore("settled");
          db.createObjectStore("last");
        },
      }),
    );
  }

  /** Everything that was settled. */
  async all(): Promise<Map<string, string>> {
    const tx = this.#db.transaction("settled");
    const [keys, values] = await Promise.all([tx.store.getAllKeys(), tx.store.getAll()]);
    return new Map(keys.map((key, at) => [key, values[at] ?? ""]));
  }

  async settle(blocks: Map<string, string>): Promise<void> {
    const tx = this.#db.transaction("settled", "readwrite");
    await Promise.all([...[...blocks].map(([key, value]) => tx.store.put(value, key)), tx.done]);
  }

  async last(): Promise<Exchanged | undefined> {
    return this.#db.get("last", LAST);
  }

  async ended(exchanged: Exchanged): Promise<void> {
    await this.#db.put("last", exchanged, LAST);
  }

  close(): void {
    this.#db.close();
  }
}
