import type { SevenPedals } from "../made/programme";
import type { ProgrammeWords } from "../words/programme";
import { moved, type Pedal } from "./diagram";
import type { OnPaper } from "./on-paper.svelte";
import { placeName } from "./on-paper-words";
import type { Piece } from "./piece.svelte";
import { timesOnly } from "./times";

/** A bar of a printed page and what is done in it. */
export interface Line {
  bar: string;
  changes: { name: string; small: string }[];
  note: string;
}

/** From one diagram to the next. */
export interface Stretch {
  mark: string;
  bar: string;
  setting: SevenPedals | undefined;
  /** What stands otherwise than in the diagram before. */
  ringed: Pedal[];
  lines: Line[];
}

type Begun = Omit<Stretch, "ringed"> & { from: number };

/** A score from movement to movement and mark to mark, its changes bar by bar. */
export function ofScore(piece: Piece, words: ProgrammeWords): Stretch[] {
  const plan = piece.pedals;
  const marks = (plan?.settings ?? []).filter((line) => line.mark !== undefined);
  const at = (mark: string, line: { measure: number; bar: string; setting: SevenPedals }): Begun => ({
    from: line.measure,
    mark,
    bar: words.bar(line.bar),
    setting: line.setting,
    lines: [],
  });
  const movements = (plan?.movements ?? []).map((line) => at(words.movement(line.movement), line));
  const begun: Begun = { from: 0, mark: "", bar: "", setting: undefined, lines: [] };
  // a mark at the beginning of a movement stands behind it
  const all = [begun]
    .concat(
      movements,
      marks.map((line) => at(line.mark ?? "", line)),
    )
    .sort((one, other) => one.from - other.from);
  let measure = 0;
  for (const change of plan?.changes ?? []) {
    const { lines } = all.findLast(({ from }) => from <= change.place.measure) ?? begun;
    const only = change.only_then ? ` (${timesOnly(words, change.place.passes)})` : "";
    const entry = { name: change.name, small: change.place.counted + only };
    if (measure === change.place.measure) lines.at(-1)?.changes.push(entry);
    else lines.push({ bar: change.place.bar, changes: [entry], note: "" });
    measure = change.place.measure;
  }
  return ringed(all, plan?.opening_setting);
}

/** A part on paper, as it is written down. */
export function ofPaper(piece: OnPaper, words: ProgrammeWords): Stretch[] {
  const movements = piece.read?.movements ?? [];
  const all: Begun[] = [];
  for (const [at, movement] of movements.entries()) {
    const named = movements.length > 1 ? words.paper.movement(at + 1, movement.name) : "";
    all.push({ from: 0, mark: named, bar: "", setting: at > 0 ? movement.setting : undefined, lines: [] });
    for (const line of movement.places) {
      const bar = line.bar || placeName(words, line);
      if (line.mark !== undefined && line.after_mark === 0) {
        const at_once = line.beat === "" || line.beat === "1";
        const setting = at_once ? line.after : line.before;
        all.push({ from: 0, mark: line.mark, bar: placeName(words, line), setting, lines: [] });
      }
      const changes = [...line.right, ...line.left].map(({ name }) => ({ name, small: line.beat }));
      if (changes.length > 0 || line.note !== "") all.at(-1)?.lines.push({ bar, changes, note: line.note });
    }
  }
  return ringed(all, piece.read?.opening_setting);
}

function ringed(all: Begun[], opening: SevenPedals | undefined): Stretch[] {
  let before = opening;
  return all.map(({ mark, bar, setting, lines }) => {
    const stretch = { mark, bar, setting, ringed: setting ? moved(setting, before) : [], lines };
    before = setting ?? before;
    return stretch;
  });
}
