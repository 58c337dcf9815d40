import type * as Desk from "../made/desk";
import type { Stretch } from "../made/desk";
import type { Records } from "./records";
import type { Exchanged, Settled } from "./settled";

/** Characters of records that are sent at once; one record may be longer. */
const PIECE = 500_000;
/** Lines that are held against those here at once. */
const LINES = 256;
/** How long an answer may take: the other waits ten seconds for a program that writes. */
const ANSWERS_MS = 30_000;

/** What was broken off: by us, because something else has to be done. */
export class BrokenOff extends Error {}

/** Why the other did nothing. */
class Trouble extends Error {
  constructor(
    readonly code: string,
    why: string,
  ) {
    super(why);
  }
}

interface Have {
  kind: "have";
  device: string;
  now: string;
  held: unknown;
}

interface Head {
  device: string;
  taken: number;
  known: number;
  apart: { device: string; seq: number }[];
  bad: { line: number; why: string }[];
  differ: { device: string; seq: number }[];
  more: boolean;
}

/** What an exchange needs: the records, what reckons, who is asked, the time. */
export interface With {
  records: Records;
  settled: Settled;
  desk: typeof Desk;
  fetch: typeof fetch;
  /** Milliseconds by this device's clock. */
  now: () => number;
  /** Becomes true when it is to be broken off. */
  stopped: () => boolean;
}

/** Gives the server of the page's own address what it lacks, and takes what is lacking here. */
export class Exchange {
  #with: With;
  #came: Exchanged = { at: "", with: "", sent: 0, got: 0, apart: [], refused: [] };
  /** Places that could not be taken: they are not asked for again in this exchange. */
  #passed: { device: string; places: number[] }[] = [];
  #aheadS: number | undefined;
  /** What lies here, as it is told; nothing once something came in. */
  #own: string | undefined;

  constructor(needs: With) {
    this.#with = needs;
  }

  /** One exchange; nothing where nobody keeps a diary at this address. */
  async run(): Promise<Exchanged | undefined> {
    try {
      const first = await this.#have();
      if (!first) return undefined;
      this.#came.with = first.device;
      const moved = await this.#lacking(first);
      await this.#compare(moved ? ((await this.#have()) ?? first) : first);
    } catch (error) {
      if (error instanceof BrokenOff) throw error;
      this.#came.trouble = troubleOf(error);
    }
    this.#came.at = new Date(this.#with.now()).toISOString();
    await this.#with.settled.ended(this.#came);
    return this.#came;
  }

  // ---- what either lacks ------------------------------------------------------------------------

  /** Both give each other what only one has; whether anything went. */
  async #lacking(have: Have): Promise<boolean> {
    const { desk, records } = this.#with;
    const theirs = JSON.stringify(have.held);
    const own = await this.#held();
    const toSend: Stretch[] = desk.lacking(theirs, own);
    const toGet = desk.lacking(own, theirs).length > 0;
    if (toSend.length === 0 && !toGet) return false;
    for await (const piece of pieces(records, toSend)) await this.#say(piece);
    for (let more = toGet; more;) {
      const before = this.#came.got + this.#passed.length;
      const head = await this.#say([]);
      more = head.more && this.#came.got + this.#passed.length > before;
    }
    return true;
  }

  async #held(): Promise<string> {
    if (this.#own === undefined) {
      const places = [...(await this.#with.records.places())].map(([device, places]) => ({ device, places }));
      this.#own = this.#with.desk.held_in({ devices: [...places, ...this.#passed] });
    }
    return this.#own;
  }

  // ---- whether the same stands in the same places ------------------------------------------------

  /** Where both hold a place and the sums differ, both give what stands there. */
  async #compare(have: Have): Promise<void> {
    const { desk, records, settled } = this.#with;
    const known = await settled.all();
    const places = await records.places();
    const apart = await records.countApart();
    const now = new Map<string, string>();
    for (const { stretch, sum } of desk.blocks_in(JSON.stringify(have.held))) {
      const key = `${have.device} ${stretch.device} ${stretch.from}`;
      const lying = places.get(stretch.device) ?? [];
      // as long as nothing was added on either side
      const state = `${sum} ${within(lying, stretch.from, stretch.to)} ${apart}`;
      if (known.get(key) === state) continue;
      this.#go();
      if (await this.#alike(stretch, sum)) now.set(key, state);
    }
    if (now.size > 0) await settled.settle(now);
  }

  /** Makes one block alike; whether it need not be looked at again. */
  async #alike(stretch: Stretch, sum: string): Promise<boolean> {
    const { desk, records } = this.#with;
    const lines: string[] = [];
    for await (const piece of records.between(stretch.device, stretch.from, stretch.to)) lines.push(...piece);
    const doubt = desk.in_doubt(lines.join("\n"));
    if (doubt.sum === sum || doubt.places.length === 0) return true;
    const before = { ...this.#came, apart: this.#came.apart.length };
    const inDoubt = [{ device: stretch.device, places: doubt.places }];
    const head = await this.#say([], inDoubt);
    if (head.differ.length > 0) {
      for (const piece of cut(await records.at(head.differ))) await this.#say(piece, []);
    }
    const came = this.#came;
    // what only differs in blanks differs for ever, and says the same
    return came.sent === before.sent && came.got === before.got && came.apart.length === before.apart;
  }

  // ---- one request ------------------------------------------------------------------------------

  async #have(): Promise<Have | undefined> {
    const from = this.#with.now();
    const answer = await this.#ask("diary/have");
    const until = this.#with.now();
    // our own worker answers in place of a server that is away
    if (answer.headers.has("x-away")) throw new TypeError("away");
    if (answer.status === 404 || answer.status === 204) return undefined;
    const [head] = await read<Have>(answer);
    // a host that answers anything with its first page keeps no diary
    if (head?.kind !== "have") return undefined;
    this.#aheadS = (Date.parse(head.now) - (from + until) / 2) / 1000;
    return head;
  }

  /** Sends lines; takes in what comes back. */
  async #say(lines: string[], inDoubt: unknown[] = []): Promise<Head> {
    this.#go();
    const { records } = this.#with;
    const held = JSON.parse(await this.#held()) as unknown;
    const clock = this.#aheadS === undefined ? null : { ahead_s: this.#aheadS };
    const first = { kind: "exchange", device: records.device, held, clock, in_doubt: inDoubt };
    const answer = await this.#ask("diary/exchange", {
      method: "POST",
      headers: { "content-type": "application/x-ndjson" },
      body: [JSON.stringify(first), ...lines, ""].join("\n"),
    });
    const [head, came] = await read<Head>(answer);
    if (!head) throw new Trouble("not_understood", "no answer");
    this.#came.sent += head.taken;
    this.#conflict(head.apart);
    for (const { line, why } of head.bad) this.#came.refused.push({ line: nameOf(lines[line - 1] ?? ""), why });
    for (let at = 0; at < came.length; at += LINES) await this.#takeIn(came.slice(at, at + LINES));
    return head;
  }

  async #takeIn(lines: string[]): Promise<void> {
    this.#go();
    const { desk, records } = this.#with;
    this.#own = undefined;
    const { taken, apart, refused } = await takeIn(desk, records, lines);
    this.#came.got += taken;
    this.#conflict(apart);
    for (const { line, why } of refused) {
      this.#came.refused.push({ line: nameOf(line), why });
      const of = idOf(line);
      // what cannot even be named is not asked for by its name again, either
      if (of) this.#passed.push({ device: of.device, places: [of.seq] });
    }
  }

  #conflict(ids: { device: string; seq: number }[]): void {
    for (const { device, seq } of ids) {
      const name = `${device} ${seq}`;
      if (!this.#came.apart.includes(name)) this.#came.apart.push(name);
    }
  }

  async #ask(path: string, how: RequestInit = {}): Promise<Response> {
    const answer = await this.#with.fetch(path, {
      ...how,
      cache: "no-store",
      credentials: "same-origin",
      redirect: "error",
      signal: AbortSignal.timeout(ANSWERS_MS),
    });
    if (answer.ok || answer.status === 404) return answer;
    const [said] = await read<{ trouble?: string; why?: string }>(answer);
    throw new Trouble(said?.trouble ?? "other", said?.why ?? `${answer.status}`);
  }

  #go(): void {
    if (this.#with.stopped()) throw new BrokenOff();
  }
}

/** Lines that came from elsewhere: what is new is kept, what contradicts is kept apart, what is no record is given back. */
export async function takeIn(desk: typeof Desk, records: Records, lines: string[]) {
  const ids = lines.flatMap((line) => idOf(line) ?? []);
  const here = await records.at(ids);
  const view = desk.importing(here.join("\n"), lines.join("\n"));
  await records.takeIn(view.lines, view.apart);
  return {
    taken: view.lines.length,
    known: view.known,
    apart: view.apart.flatMap((line) => idOf(line) ?? []),
    refused: view.troubles.map(({ line, why }) => ({ at: line, line: lines[line - 1] ?? "", why })),
  };
}

/** Records of some stretches, a piece at a time. */
async function* pieces(records: Records, stretches: Stretch[]): AsyncGenerator<string[]> {
  for (const { device, from, to } of stretches) {
    for await (const lines of records.between(device, from, to)) yield* cut(lines);
  }
}

function* cut(lines: string[]): Generator<string[]> {
  let piece: string[] = [];
  let length = 0;
  for (const line of lines) {
    if (piece.length > 0 && length + line.length > PIECE) {
      yield piece;
      [piece, length] = [[], 0];
    }
    piece.push(line);
    length += line.length;
  }
  if (piece.length > 0) yield piece;
}

/** How many of some places, in order, lie within a stretch. */
function within(places: number[], from: number, to: number): number {
  const before = (bound: number) => {
    let [low, high] = [0, places.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if ((places[middle] ?? 0) < bound) low = middle + 1;
      else high = middle;
    }
    return low;
  };
  return before(to + 1) - before(from);
}

/** The first line of an answer as an object, and its other lines. */
async function read<First>(answer: Response): Promise<[First | undefined, string[]]> {
  const [first = "", ...rest] = (await answer.text()).split("\n");
  try {
    return [JSON.parse(first) as First, rest.filter((line) => line !== "")];
  } catch {
    return [undefined, []];
  }
}

function idOf(line: string): { device: string; seq: number } | undefined {
  try {
    const { device, seq } = JSON.parse(line) as { device: unknown; seq: unknown };
    return typeof device === "string" && typeof seq === "number" ? { device, seq } : undefined;
  } catch {
    return undefined;
  }
}

/** A record as people call it, or its beginning. */
function nameOf(line: string): string {
  const id = idOf(line);
  return id ? `${id.device} ${id.seq}` : line.slice(0, 60);
}

function troubleOf(error: unknown): { code: string; why: string } {
  if (error instanceof Trouble) return { code: error.code, why: error.message };
  const why = error instanceof Error ? error.message : String(error);
  if (error instanceof DOMException && error.name === "QuotaExceededError") return { code: "full_here", why };
  const isNetwork = error instanceof TypeError || (error instanceof DOMException && error.name === "TimeoutError");
  return { code: isNetwork ? "away" : "other", why };
}
