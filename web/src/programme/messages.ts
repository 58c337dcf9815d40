import type {
  EveningAnswer,
  EveningAsk,
  Held,
  Hold,
  LeverAnswer,
  OtherWay,
  PaperAnswer,
  PaperAsk,
  PlanAnswer,
  PlanRecord,
  PlanWishes,
  ScoreLine,
} from "../made/programme";
import type { HarpChoice, ShownChoice } from "../made/tune";

/** What the page asks of the planner. Every question has a number, and its answers bear it. */
export type PlanAsk = { id: number } & (
  | { do: "usual" }
  | { do: "read"; key: string; bytes: Uint8Array; part: string | undefined; repeats: boolean }
  | { do: "plan"; key: string; harp: HarpChoice; wishes: PlanWishes; shown: ShownChoice }
  | { do: "fastest"; key: string }
  | { do: "held"; key: string; change: number; hold: Hold; shown: ShownChoice }
  | { do: "why"; key: string; change: number; holds: Hold[]; shown: ShownChoice }
  | { do: "music"; key: string; from: number; until: number }
  | { do: "record"; key: string; of: PlanRecord; harp: HarpChoice }
  | { do: "forget"; key: string }
  | { do: "played"; key: string }
  | { do: "paper-played"; paper: PaperAsk; harp: HarpChoice }
  | { do: "paper"; paper: PaperAsk; harp: HarpChoice; shown: ShownChoice }
  | { do: "paper-record"; of: PlanRecord; paper: PaperAsk; harp: HarpChoice }
  | { do: "evening"; evening: EveningAsk; harp: HarpChoice; shown: ShownChoice }
);

export type Answer =
  | { is: "wishes"; wishes: PlanWishes }
  | { is: "read"; score: ScoreLine }
  | { is: "plan"; pedals: PlanAnswer | undefined; levers: LeverAnswer | undefined; tookMs: number }
  | { is: "fastest"; factor: number | undefined }
  | { is: "held"; held: Held | undefined }
  | { is: "why"; ways: OtherWay[] }
  | { is: "music"; music: string | undefined }
  | { is: "record"; line: string | undefined }
  | { is: "paper"; paper: PaperAnswer }
  | { is: "evening"; evening: EveningAnswer }
  | { is: "played"; played: [string, number][] }
  | { is: "done" };

/** What the planner tells. */
export type PlanTell =
  | ({ id: number } & Answer)
  | { id: number; is: "step"; of: number; done: number }
  | { id: number; is: "failed"; why: string };

/** What the page asks of the engraver: a small score, as wide as so many of its own units. */
export interface EngraveAsk {
  id: number;
  music: string;
  width: number;
  scale: number;
  /** Whether the piece goes on after it, so that its last system may not be full. */
  more: boolean;
}

/** One system, from a measure to another, counted from 1. */
export interface System {
  from: number;
  until: number;
  svg: string;
  width: number;
  height: number;
}

export type EngraveTell = { id: number; is: "systems"; systems: System[] } | { id: number; is: "failed"; why: string };
