// The planner: the same Rust as the command, in a thread of its own. To stop it, end it and begin another.
import init, {
  Score,
  evening,
  paper_part,
  paper_played,
  paper_record,
  usual_wishes,
  type OtherWay,
  type StringPlayed,
} from "../made/programme";
import wasm from "../made/programme_bg.wasm?url";
import type { Answer, PlanAsk, PlanTell } from "./messages";

const scores = new Map<string, Score>();
const ready = init({ module_or_path: wasm });

const tell = (message: PlanTell) => postMessage(message);

/** What was asked before is done first. */
let turn: Promise<unknown> = ready;

onmessage = ({ data }: MessageEvent<PlanAsk>) => {
  turn = turn
    .then(() => tell({ id: data.id, ...answer(data) }))
    .catch((error: unknown) =>
      tell({ id: data.id, is: "failed", why: error instanceof Error ? error.message : String(error) }),
    );
};

function answer(ask: PlanAsk): Answer {
  switch (ask.do) {
    case "usual":
      return { is: "wishes", wishes: usual_wishes() };
    case "read": {
      const score = Score.read(ask.bytes, ask.part, ask.repeats);
      scores.get(ask.key)?.free();
      scores.set(ask.key, score);
      return { is: "read", score: score.told() };
    }
    case "plan": {
      const from = performance.now();
      const score = of(ask.key);
      const isLever = ask.harp.kind === "lever";
      const pedals = isLever ? undefined : score.plan(ask.harp, ask.wishes, ask.shown);
      const levers = isLever ? score.plan_levers(ask.harp, ask.wishes, ask.shown) : undefined;
      return { is: "plan", pedals, levers, tookMs: performance.now() - from };
    }
    case "fastest":
      return { is: "fastest", factor: of(ask.key).fastest_tempo_factor() };
    case "held":
      return { is: "held", held: of(ask.key).held(ask.change, ask.hold, ask.shown) };
    case "why": {
      const ways: OtherWay[] = [];
      for (const [done, hold] of ask.holds.entries()) {
        const way = of(ask.key).other_way(ask.change, hold, ask.shown);
        if (way) ways.push(way);
        tell({ id: ask.id, is: "step", of: ask.holds.length, done: done + 1 });
      }
      return { is: "why", ways };
    }
    case "music":
      return { is: "music", music: of(ask.key).music(ask.from, ask.until) };
    case "record":
      return { is: "record", line: of(ask.key).record(ask.of, ask.harp) };
    case "forget":
      scores.get(ask.key)?.free();
      scores.delete(ask.key);
      return { is: "done" };
    case "played":
      return { is: "played", played: notes(of(ask.key).played()) };
    case "paper-played":
      return { is: "played", played: notes(paper_played(ask.paper, ask.harp)) };
    case "paper":
      return { is: "paper", paper: paper_part(ask.paper, ask.harp, ask.shown) };
    case "paper-record":
      return { is: "record", line: paper_record(ask.of, ask.paper, ask.harp) };
    case "evening":
      return { is: "evening", evening: evening(ask.evening, ask.harp, ask.shown) };
  }
}

const notes = (played: StringPlayed[]) => played.map(({ string, weight }): [string, number] => [string, weight]);

function of(key: string): Score {
  const score = scores.get(key);
  if (!score) throw new Error("the score is not read");
  return score;
}
