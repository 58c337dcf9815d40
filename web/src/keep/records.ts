import { openDB, type DBSchema, type IDBPDatabase } from "idb";

/** Records as they lie in the browser: the line is the record, the rest finds it. */
interface Kept {
  device: string;
  seq: number;
  line: string;
}

interface Shelf extends DBSchema {
  records: { key: [string, number]; value: Kept };
  /** Records that contradict one of the others: kept, and not used. */
  apart: { key: string; value: string };
  names: { key: string; value: string };
}

const NAME = "sevenflats";
const DEVICE = "device";

/** The diary in this browser. Records are only ever added. */
export class Records {
  #db: IDBPDatabase<Shelf>;
  readonly device: string;
  #waiting: string[] = [];
  #turn: Promise<void> = Promise.resolve();

  private constructor(db: IDBPDatabase<Shelf>, device: string) {
    this.#db = db;
    this.device = device;
  }

  static async open(): Promise<Records> {
    const db = await openDB<Shelf>(NAME, 1, {
      upgrade(db) {
        db.createObjectStore("records", { keyPath: ["device", "seq"] });
        db.createObjectStore("apart");
        db.createObjectStore("names");
      },
    });
    let device = await db.get("names", DEVICE);
    if (device === undefined) {
      device = crypto.randomUUID();
      await db.put("names", device, DEVICE);
    }
    return new Records(db, device);
  }

  /** Adds lines; what cannot be added now waits and is tried again with the next. Throws why. */
  async append(lines: string[]): Promise<void> {
    this.#waiting.push(...lines);
    // one after the other: what another call is still writing would be written twice
    const turn = this.#turn.then(() => this.#write());
    this.#turn = turn.catch(() => undefined);
    await turn;
  }

  async #write(): Promise<void> {
    const lying = [...this.#waiting];
    if (lying.length === 0) return;
    const tx = this.#db.transaction("records", "readwrite", { durability: "strict" });
    const added = lying.map((line) => {
      const { device, seq } = JSON.parse(line) as { device: string; seq: number };
      return tx.store.add({ device, seq, line });
    });
    await Promise.all([...added, tx.done]);
    this.#waiting.splice(0, lying.length);
  }

  /** Keeps lines that contradict others. */
  async keepApart(lines: string[]): Promise<void> {
    const tx = this.#db.transaction("apart", "readwrite", { durability: "strict" });
    await Promise.all([...lines.map((line) => tx.store.put(line, line)), tx.done]);
  }

  /** Lines that could not be added yet. */
  get waiting(): readonly string[] {
    return this.#waiting;
  }

  /** The first place that this device has not written, from 1. */
  async next(): Promise<number> {
    await this.#turn;
    const own = IDBKeyRange.bound([this.device, 0], [this.device, Infinity]);
    const cursor = await this.#db.transaction("records").store.openKeyCursor(own, "prev");
    const waiting = this.#waiting.map((line) => JSON.parse(line) as Kept).filter((kept) => kept.device === this.device);
    return Math.max(cursor?.key[1] ?? 0, ...waiting.map((kept) => kept.seq)) + 1;
  }

  /** Whether there is nothing yet. */
  async isEmpty(): Promise<boolean> {
    return this.#waiting.length === 0 && (await this.#db.count("records")) === 0;
  }

  /** Every line, what waits among them: a file of the diary. */
  async lines(): Promise<string> {
    const kept = await this.#db.getAll("records");
    const apart = await this.#db.getAll("apart");
    return [...kept.map((record) => record.line), ...apart, ...this.#waiting].join("\n") + "\n";
  }

  close(): void {
    this.#db.close();
  }
}

/** Asks the browser to keep it all; whether it will. */
export async function askToPersist(): Promise<boolean> {
  if (!("storage" in navigator)) return false;
  return (await navigator.storage.persisted()) || (await navigator.storage.persist());
}

/** Whether an error says that there is no more room. */
export function isFull(error: unknown): boolean {
  return error instanceof DOMException && error.name === "QuotaExceededError";
}
