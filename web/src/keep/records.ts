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

/** Lines that are read at once: a piece that no thread is long busy with. */
const PIECE = 512;

/** The diary in this browser. Records are only ever added. */
export class Records {
  #db: IDBPDatabase<Shelf>;
  #device: string;
  #waiting: string[] = [];
  #turn: Promise<void> = Promise.resolve();

  private constructor(db: IDBPDatabase<Shelf>, device: string) {
    this.#db = db;
    this.#device = device;
  }

  /** The name under which this browser writes. */
  get device(): string {
    return this.#device;
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

  /** A new name to write under: another writes under the old one, too. */
  async rename(): Promise<void> {
    const device = crypto.randomUUID();
    await this.#db.put("names", device, DEVICE);
    this.#device = device;
  }

  /** The name as it is now, where another thread may have changed it. */
  async renamed(): Promise<void> {
    this.#device = (await this.#db.get("names", DEVICE)) ?? this.#device;
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
    await this.#add(lying);
    this.#waiting.splice(0, lying.length);
  }

  /** Each into its place; where another stands there already it is kept apart. All of them, or none. */
  async #add(lines: string[], apart: string[] = []): Promise<void> {
    const tx = this.#db.transaction(["records", "apart"], "readwrite", { durability: "strict" });
    const [records, others] = [tx.objectStore("records"), tx.objectStore("apart")];
    const add = async (line: string) => {
      const { device, seq } = JSON.parse(line) as { device: string; seq: number };
      const here = await records.get([device, seq]);
      if (here === undefined) await records.add({ device, seq, line });
      else if (here.line !== line) await others.put(line, line);
    };
    // what is broken off in the middle is undone
    await Promise.all([...lines.map(add), ...apart.map((line) => others.put(line, line)), tx.done]).catch((error) => {
      try {
        tx.abort();
      } catch {
        // it was broken off already
      }
      throw error;
    });
  }

  /** Adds records of others, and such as contradict those that are here. */
  async takeIn(lines: string[], apart: string[]): Promise<void> {
    if (lines.length + apart.length > 0) await this.#add(lines, apart);
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

  /** Every place that is held, by device; no line is read. */
  async places(): Promise<Map<string, number[]>> {
    const places = new Map<string, number[]>();
    for (const [device, seq] of await this.#db.getAllKeys("records")) {
      const of = places.get(device);
      if (of) of.push(seq);
      else places.set(device, [seq]);
    }
    return places;
  }

  /** The lines of some places of a device, those that are kept apart among them, in pieces. */
  async *between(device: string, from: number, to: number): AsyncGenerator<string[]> {
    for (let next = from; next <= to;) {
      const kept = await this.#db.getAll("records", IDBKeyRange.bound([device, next], [device, to]), PIECE);
      const last = kept.at(-1)?.seq;
      if (last === undefined) break;
      yield kept.map((record) => record.line);
      next = last + 1;
    }
    const apart = (await this.#db.getAll("apart")).filter((line) => {
      const of = JSON.parse(line) as { device: string; seq: number };
      return of.device === device && of.seq >= from && of.seq <= to;
    });
    if (apart.length > 0) yield apart;
  }

  /** The lines that stand in these places, apart or not. */
  async at(ids: { device: string; seq: number }[]): Promise<string[]> {
    const wanted = new Set(ids.map(({ device, seq }) => `${seq} ${device}`));
    const tx = this.#db.transaction("records");
    const kept = await Promise.all(ids.map(({ device, seq }) => tx.store.get([device, seq])));
    const apart = (await this.#db.getAll("apart")).filter((line) => {
      const { device, seq } = JSON.parse(line) as { device: string; seq: number };
      return wanted.has(`${seq} ${device}`);
    });
    return [...kept.flatMap((record) => (record ? [record.line] : [])), ...apart];
  }

  /** Every line, in pieces. */
  async *pieces(): AsyncGenerator<string[]> {
    let from: IDBKeyRange | null = null;
    for (;;) {
      const kept: Kept[] = await this.#db.getAll("records", from, PIECE);
      const last = kept.at(-1);
      if (!last) break;
      yield kept.map((record) => record.line);
      from = IDBKeyRange.lowerBound([last.device, last.seq], true);
    }
    const apart = await this.#db.getAll("apart");
    if (apart.length > 0) yield apart;
  }

  /** How many records contradict another. */
  async countApart(): Promise<number> {
    return this.#db.count("apart");
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
