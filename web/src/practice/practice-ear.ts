// Hears strings that are tuned by ear, and tells nothing of them before she has; the same Rust as the command.
import init, { ByEarPractice, StudentFile, ear_choice, practice_line } from "../made/desk";
import wasm from "../made/desk_bg.wasm?url";
import { readAll } from "../keep/reading";
import { Intake } from "../sound/intake";
import type { EarStep, PracticeAsk, PracticeTell } from "./messages";

const tell = (message: PracticeTell) => postMessage(message);
const ready = init({ module_or_path: wasm });

let practice: ByEarPractice | undefined;
const intake = new Intake({
  rate: (rateHz) => practice?.change_rate(rateHz),
  lost: (samples) => {
    if (practice?.lost(samples)) show(practice);
  },
  samples: (samples) => {
    if (practice?.push(samples)) show(practice);
  },
  level: (peak, silentS) => tell({ id: 0, is: "level", peak, silentS }),
  trouble: (error) => tell({ id: 0, is: "failed", why: words(error) }),
});

/** What was asked before is done first. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<PracticeAsk>) => {
  turn = turn
    .then(() => (data.do === "past" ? lookBack(data) : answer(data)))
    .then((told) => tell({ ...told, id: data.id }))
    .catch((error: unknown) => tell({ id: data.id, is: "failed", why: words(error) }));
};

const words = (error: unknown) => (error instanceof Error ? error.message : String(error));

type Answer = PracticeTell extends infer Tell ? (Tell extends unknown ? Omit<Tell, "id"> : never) : never;

/** Her own diary, week by week, as a student's file is told of. */
async function lookBack(ask: PracticeAsk & { do: "past" }): Promise<Answer> {
  const own = new StudentFile();
  const utf8 = new TextEncoder();
  await readAll((lines) => own.take(utf8.encode(lines)));
  const past = own.view(ask.aheadMin, ask.shown);
  own.free();
  return { is: "past", past };
}

function answer(ask: Exclude<PracticeAsk, { do: "past" }>): Answer {
  switch (ask.do) {
    case "choice":
      return { is: "choice", choice: ear_choice(ask.ask, ask.shown) };
    case "sound":
      intake.listen(ask.blocks, ask.rateHz);
      return { is: "done" };
    case "begin":
      practice?.free();
      practice = ByEarPractice.begin(ask.ask, ask.shown, intake.rateHz);
      return { is: "view", view: practice.view() };
    case "step":
      return stepped(ask.step);
    case "show":
      practice?.show(ask.shown);
      if (practice) show(practice);
      return { is: "done" };
    case "kept":
      return { is: "kept", kept: practice?.kept(ask.tookS) };
    case "record":
      return { is: "record", line: practice_line(ask.place, ask.practised) };
    case "leave":
      practice?.free();
      practice = undefined;
      intake.close();
      return { is: "done" };
  }
}

function stepped(step: EarStep): Answer {
  if (!practice) return { is: "over" };
  switch (step.is) {
    case "pass":
      practice.pass();
      break;
    case "say":
      practice.say(step.guess);
      break;
    case "there":
      practice.there();
      break;
    case "next":
      if (!practice.go_on()) return { is: "over" };
  }
  return { is: "view", view: practice.view() };
}

function show(of: ByEarPractice): void {
  tell({ id: 0, is: "view", view: of.view() });
}
