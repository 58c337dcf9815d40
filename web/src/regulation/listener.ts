// The listener: hears a regulation check and judges it, in a thread of its own; the same Rust as the command.
import init, { Findings, PastChecks, RegulationCheck, check_choice, kept_so_far } from "../made/desk";
import type { CheckStep } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import type { ShownChoice } from "../made/tune";
import { readKnown } from "../keep/known";
import { Intake } from "../sound/intake";
import { Marks } from "../work/marks";
import type { CheckAsk, CheckTell } from "./messages";

const tell = (message: CheckTell) => postMessage(message);
const ready = init({ module_or_path: wasm });

let check: RegulationCheck | undefined;
let past: PastChecks | undefined;
let findings: Findings | undefined;
let paused = false;
const marks = new Marks();
const intake = new Intake({
  rate: (rateHz) => {
    if (check) stepped(check, check.change_rate(rateHz));
    marks.clear();
  },
  lost: (samples) => {
    if (check && !paused) stepped(check, check.lost(samples));
  },
  samples: (samples, from, to) => {
    if (check && !paused) stepped(check, check.push(samples, marks.touches(from, to)));
  },
  level: (peak, silentS) => tell({ id: 0, is: "level", peak, silentS }),
  trouble: (error) => trouble(0, error),
});

/** What was asked before is done first. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<CheckAsk>) => {
  turn = turn
    .then(() => (data.do === "past" ? lookBack(data) : answer(data)))
    .then((told) => tell({ ...told, id: data.id }))
    .catch((error: unknown) => trouble(data.id, error));
};

function trouble(id: number, error: unknown): void {
  tell({ id, is: "failed", why: error instanceof Error ? error.message : String(error) });
}

type Answer = CheckTell extends infer Tell ? (Tell extends unknown ? Omit<Tell, "id"> : never) : never;

/** What the diary knows of the harp. */
async function lookBack(ask: CheckAsk & { do: "past" }): Promise<Answer> {
  const { kept } = await readKnown();
  past?.free();
  past = PastChecks.of(kept, ask.harp);
  kept.free();
  return { is: "past", fresh: past.fresh(ask.at, ask.shown), checks: past.checks() };
}

function answer(ask: Exclude<CheckAsk, { do: "past" }>): Answer {
  switch (ask.do) {
    case "choice":
      return { is: "choice", choice: check_choice(ask.harp, ask.few, ask.minutes, ask.shown) };
    case "so far":
      return { is: "so far", far: kept_so_far(ask.kept) };
    case "sound":
      intake.listen(ask.blocks, ask.rateHz);
      return { is: "done" };
    case "begin":
      check?.free();
      paused = false;
      check = RegulationCheck.begin(ask.kept, ask.shown, intake.rateHz);
      return { is: "view", view: check.view(), kept: check.kept() };
    case "pause":
      paused = ask.is;
      return { is: "done" };
    case "skip":
      if (check) stepped(check, check.skip());
      return { is: "done" };
    case "show":
      check?.show(ask.shown);
      if (check) show(check, false);
      return { is: "done" };
    case "own sound":
      marks.add(ask.from, ask.to);
      return { is: "done" };
    case "judge":
      return judged(Findings.of_kept(ask.kept, ask.at), ask.beside, ask.shown);
    case "judge past":
      return judged(Findings.of_past(known(past), ask.place), ask.beside, ask.shown);
    case "beside":
      if (past) known(findings).stand_beside(past, ask.place);
      return { is: "findings", findings: known(findings).view(ask.shown) };
    case "pages":
      return { is: "pages", pages: known(findings).pages(ask.called, ask.shown) };
    case "csv":
      return { is: "csv", csv: known(findings).csv(ask.shown) };
    case "record":
      return { is: "record", line: known(findings).record(ask.device, ask.next) };
    case "leave":
      check?.free();
      check = undefined;
      intake.close();
      return { is: "done" };
  }
}

function known<T>(value: T | undefined): T {
  if (value === undefined) throw new Error("nothing is judged yet");
  return value;
}

function judged(made: Findings, beside: number | undefined, shown: ShownChoice): Answer {
  findings?.free();
  findings = made;
  if (past && beside !== undefined) findings.stand_beside(past, beside);
  return { is: "findings", findings: findings.view(shown) };
}

function stepped(of: RegulationCheck, step: CheckStep): void {
  // what is heard after the last string is no part of it
  if (step.done) paused = true;
  if (step.changed) show(of, step.taken);
}

function show(of: RegulationCheck, taken: boolean): void {
  tell({ id: 0, is: "view", view: of.view(), kept: taken ? of.kept() : undefined });
}
