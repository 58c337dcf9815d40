import { execFileSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import init, {
  Score,
  usual_wishes,
  type PlanAnswer,
  type LeverAnswer,
  type PlanWishes,
} from "../../src/made/programme";
import type { HarpChoice } from "../../src/made/tune";
import { COMMAND } from "./server";

export const SCORES = fileURLToPath(new URL("../../../crates/sevenflats/tests/plan/scores/", import.meta.url));
export const SHOWN = { language: "en", scientific: false, other_side: false };

export const PEDAL_47: HarpChoice = {
  kind: "pedal",
  lowest: "C1",
  highest: "G7",
  open: undefined,
  unmoved: ["C1", "D1", "G7"],
};
export const LEVER_34: HarpChoice = { kind: "lever", lowest: "C2", highest: "A6", open: undefined, unmoved: [] };

/** The planner's module, outside a browser. */
export async function loaded(): Promise<void> {
  await init({ module_or_path: readFileSync(new URL("../../src/made/programme_bg.wasm", import.meta.url)) });
}

/** A plan by the module, as the command's JSON has it. */
export function byModule(file: string, change: (wishes: PlanWishes) => void, lever = false): Record<string, unknown> {
  const wishes = usual_wishes();
  change(wishes);
  const score = Score.read(readFileSync(file), undefined, true);
  const harp = lever ? LEVER_34 : PEDAL_47;
  const answer = lever ? score.plan_levers(harp, wishes, SHOWN) : score.plan(harp, wishes, SHOWN);
  const fastest = lever ? {} : { fastest_tempo_factor: score.fastest_tempo_factor() ?? null };
  const told = asTheCommand(answer, fastest);
  score.free();
  return told;
}

/** The same by the command. */
export function byCommand(file: string, options: string[], lever = false): Record<string, unknown> {
  const words = ["plan", file, "--json", "--harp", lever ? "lever34" : "pedal47", ...options];
  return JSON.parse(execFileSync(COMMAND, words, { encoding: "utf8" })) as Record<string, unknown>;
}

/** Fields that only people read. */
const FOR_PEOPLE = ["name", "was", "after", "price", "counted", "place"];

/** What is set before movements, among the changes, as the command has it. */
function inOneList(answer: PlanAnswer | LeverAnswer): PlanAnswer | LeverAnswer {
  if (!("movements" in answer)) return answer;
  const { movements, ...rest } = answer;
  const set = movements.flatMap(({ movement, changes }) =>
    changes.map((line) => ({ ...line, only_then: false, before_movement: movement })),
  );
  const place = ({ place: { measure, beat } }: { place: { measure: number; beat: string } }) => {
    const [over, under = 1] = beat.split("/").map(Number);
    return [measure, (over ?? 0) / under] as const;
  };
  const order = (one: readonly [number, number], other: readonly [number, number]) =>
    one[0] - other[0] || one[1] - other[1];
  const changes = [...set, ...rest.changes].sort((one, other) => order(place(one), place(other)));
  return { ...rest, changes } as unknown as PlanAnswer;
}

function asTheCommand(answer: PlanAnswer | LeverAnswer, more: object): Record<string, unknown> {
  const { cost, ...rest } = inOneList(answer);
  const bill = { ...Object.fromEntries(cost.items), total: cost.total };
  const plain = JSON.parse(JSON.stringify({ ...rest, ...more, cost: bill })) as Record<string, unknown>;
  const lines = (list: unknown) =>
    (list as Record<string, unknown>[]).map((line) => {
      const flat = { ...line, ...(line["place"] as object | undefined) };
      return Object.fromEntries(
        Object.entries(flat).filter(([key]) => !FOR_PEOPLE.includes(key) && !key.endsWith("_name")),
      );
    });
  for (const list of ["changes", "respelled", "cannot", "contradicted", "discless", "settings"]) {
    if (list in plain) plain[list] = lines(plain[list]);
  }
  for (const head of (plain["cannot"] ?? []) as { remedies: Record<string, unknown>[] }[]) {
    for (const remedy of head.remedies) delete remedy["name"];
  }
  return plain;
}
