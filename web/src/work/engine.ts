// The engine: the same Rust as the command, in a thread of its own, fed by the worklet.
import init, { TakeA, Tune, known_harps, strings_of } from "../made/tune";
import wasm from "../made/tune_bg.wasm?url";
import type * as Desk from "../made/desk";
import type { ShownChoice, Step } from "../made/tune";
import type { Block } from "../sound/worklet";
import { Marks } from "./marks";
import type { Ask, FewMinutes, Tell } from "./messages";

const tell = (message: Tell) => postMessage(message);
const now = () => new Date().toISOString();

/** Blocks after which the level is told: some twelve times a second. */
const LEVELS = 4;

let shown: ShownChoice = { language: "en", scientific: false, other_side: false };
let box: { width: number; height: number; unit: number } | undefined;
/** The round; one that was taken up is the desk's, which has all that `tune` has. */
let tune: Tune | Desk.Tune | undefined;
let rateHz = 48_000;
let taking: TakeA | undefined;
let blocks: MessagePort | undefined;
let levels = false;
const marks = new Marks();
const count = { next: 0, frame: -1, taken: 0, lost: 0, peak: 0, silent: 0, busyMs: 0 };

const ready = init({ module_or_path: wasm });

let desk: Promise<typeof Desk> | undefined;

/** What reads the diary, loaded when it is needed first; where that failed it is tried again the next time. */
function theDesk(): Promise<typeof Desk> {
  desk ??= loadDesk();
  desk.catch(() => (desk = undefined));
  return desk;
}

async function loadDesk(): Promise<typeof Desk> {
  const [loaded, code] = await Promise.all([import("../made/desk"), import("../made/desk_bg.wasm?url")]);
  await loaded.default({ module_or_path: code.default });
  return loaded;
}

/** What was asked before is done first, even where it takes a while. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<Ask>) => {
  turn = turn.then(() => asked(data)).catch(trouble);
};

function trouble(error: unknown): void {
  tell({ is: "trouble", words: error instanceof Error ? error.message : String(error) });
}

function asked(ask: Ask): void | Promise<void> {
  switch (ask.do) {
    case "sound":
      return listen(ask.blocks, ask.rateHz);
    case "begin":
      if (ask.few) return beginFew(ask, ask.few);
      return begin(Tune.begin(ask.choice, shown, rateHz, ask.device, ask.next, now()));
    case "foreseen":
      if (tune && "foresee" in tune) stepped(tune.foresee(ask.foreseen, now()), true);
      return;
    case "take up":
      return theDesk().then((desk) => {
        tune?.free();
        tune = desk.Tune.take_up(ask.lines, shown, rateHz, ask.device, ask.next);
        stepped(tune.keep(now()), true);
      });
    case "act":
      if (tune) stepped(tune.act(ask.act, now()), true);
      return;
    case "settle":
      tune?.settle(ask.place);
      return show();
    case "show":
      shown = ask.shown;
      tune?.show(shown);
      tell({ is: "harps", known: known_harps(shown) });
      return show();
    case "strings of":
      return tell({ is: "strings", strings: strings_of(ask.harp, shown) });
    case "box":
      box = { width: ask.width, height: ask.height, unit: ask.unit };
      return show();
    case "own sound":
      return marks.add(ask.from, ask.to);
    case "levels":
      levels = ask.wanted;
      return;
    case "take the A":
      taking?.free();
      taking = new TakeA(rateHz, ask.note, ask.usualHz, shown);
      return;
    case "end the A":
      return endTheA();
    case "keep":
      if (tune) stepped(tune.keep(now()), false);
      return;
    case "sum up":
      if (tune) tell({ is: "summary", summary: tune.summary() });
      return;
    case "leave":
      tune?.free();
      tune = undefined;
      return;
  }
}

function begin(begun: Tune | Desk.Tune): void {
  tune?.free();
  tune = begun;
  tell({ is: "records", lines: [tune.beginning() ?? ""].filter((line) => line !== "") });
  stepped(tune.act({ act: "begin" }, now()), true);
}

/** Only so many minutes: the desk's round, whose order comes from the diary; where that cannot be had, the usual one. */
async function beginFew(ask: Extract<Ask, { do: "begin" }>, few: FewMinutes): Promise<void> {
  const desk = await theDesk().catch(() => undefined);
  if (!desk) return begin(Tune.begin(ask.choice, shown, rateHz, ask.device, ask.next, now()));
  const begun = desk.Tune.begin(ask.choice, shown, rateHz, ask.device, ask.next, now());
  begun.within(few.minutes, now());
  const first = few.foreseen && begun.foresee(few.foreseen, now());
  begin(begun);
  if (first) stepped(first, true);
}

function listen(port: MessagePort, rate: number): void {
  blocks?.close();
  blocks = port;
  if (tune) stepped(tune.change_rate(rate, now()), false);
  rateHz = rate;
  count.next = 0;
  count.frame = -1;
  marks.clear();
  port.onmessage = ({ data }: MessageEvent<Block>) => {
    const from = performance.now();
    take(data);
    count.busyMs += performance.now() - from;
    port.postMessage(data.samples, [data.samples.buffer]);
  };
}

/** Wall time, ms since 1970, at which the last seconds of sound arrived: the first is the oldest. */
const arrivals: { s: number; ms: number }[] = [];

/** Keeps when the sound up to now arrived, by the round's own seconds. */
function arrived(): void {
  arrivals.push({ s: tune?.now_s() ?? 0, ms: performance.timeOrigin + performance.now() });
  if (arrivals.length > 256) arrivals.shift();
}

/** When the sound at this second of the round arrived. */
function arrivalOf(atS: number): number | undefined {
  return arrivals.findLast((arrival) => arrival.s <= atS)?.ms;
}

function take({ samples, frame, place }: Block): void {
  count.lost += place - count.next;
  count.next = place + 1;
  count.taken += 1;
  // frames that the worklet never saw, or blocks that never came
  const missing = count.frame < 0 ? 0 : frame - count.frame;
  count.frame = frame + samples.length;
  if (levels) level(samples);
  if (taking) {
    const holding = taking.push(samples);
    if (count.taken % LEVELS === 0) tell({ is: "holding", holding });
    if (holding.held_s >= holding.of_s + 0.4) endTheA();
    return;
  }
  if (!tune) return;
  if (missing > 0) stepped(tune.lost(missing, now()), false);
  arrived();
  stepped(tune.push(samples, marks.touches(frame, frame + samples.length), now()), false);
  if (count.taken % 512 === 0) tell({ is: "blocks", taken: count.taken, lost: count.lost, busyMs: count.busyMs });
}

function level(samples: Float32Array): void {
  let peak = 0;
  for (const sample of samples) peak = Math.max(peak, Math.abs(sample));
  count.peak = Math.max(count.peak, peak);
  count.silent = peak > 0 ? 0 : count.silent + samples.length;
  if (count.taken % LEVELS !== 0) return;
  tell({ is: "level", peak: count.peak, silentS: count.silent / rateHz });
  count.peak = 0;
}

function endTheA(): void {
  if (!taking) return;
  const ear = taking;
  taking = undefined;
  tell({ is: "taken", taken: ear.finish() });
}

function stepped(step: Step, always: boolean): void {
  if (step.records.length > 0) tell({ is: "records", lines: step.records });
  if (step.said.length > 0 || step.heard.length > 0) {
    const first = step.heard[0];
    tell({ is: "heard", said: step.said, heard: step.heard, cameMs: first && arrivalOf(first.at_s) });
  }
  if (step.changed || always) show();
}

function show(): void {
  if (!tune) return;
  const harp = box ? tune.harp(box.width, box.height, box.unit) : undefined;
  const few = "few" in tune ? tune.few(now()) : undefined;
  tell({ is: "view", view: tune.view(), harp, account: tune.account(), few });
}

void ready.then(() => tell({ is: "ready" }), trouble);
