import MiniSearch, { type SearchOptions, type SearchResult } from "minisearch";
import type { Chapter, Group } from "./shape";

/** A section in which something was found. */
export interface Found {
  /** Its address, behind the page's own. */
  href: string;
  chapter: string;
  /** Its heading; empty where it is the chapter's beginning. */
  section: string;
  /** Some words of it, those that were found marked. */
  context: { text: string; isFound: boolean }[];
}

interface Kept {
  id: string;
  chapter: string;
  section: string;
  text: string;
}

/** Sections that are shown at most. */
export const MOST = 20;
/** The group of what is done by command: whoever reads in the page comes to it last. */
const DESK = "at-the-desk";
/** Letters of the line that is shown of a section, and those of them before what was found. */
const LINE = 170;
const BEFORE = 45;
/** A word, as the index cuts a text. */
const WORD = /[^\n\r\p{Z}\p{P}]+/gu;

/** Finds sections of the guide by words in them: by their beginnings, and with a letter or two that are wrong. */
export class Finder {
  readonly #kept = new Map<string, Kept>();
  readonly #index = new MiniSearch<Kept>({ fields: ["section", "chapter", "text"], processTerm: stem });

  /** Chapters that are for the desk alone. */
  readonly #desk: ReadonlySet<string>;

  constructor(chapters: readonly Chapter[], groups: readonly Group[]) {
    const inHand = groups.filter(({ id }) => id !== DESK).flatMap(({ entries }) => entries.map((one) => one.chapter));
    this.#desk = new Set(chapters.map(({ id }) => id).filter((id) => !inHand.includes(id)));
    const all = chapters.flatMap((chapter) =>
      chapter.sections.map((section) => ({
        id: section.id === "" ? chapter.id : `${chapter.id}/${section.id}`,
        chapter: chapter.title,
        section: section.title,
        text: textOf(section.html),
      })),
    );
    for (const one of all) this.#kept.set(one.id, one);
    this.#index.addAll(all);
  }

  /** The best sections first: those that have all the words as they are, or nearly so; where there are none, some of them. */
  find(words: string): Found[] {
    const how = {
      boost: { section: 3, chapter: 2 },
      boostDocument: (id: string) => (this.#desk.has(id.split("/")[0] ?? "") ? 0.5 : 1),
      prefix: (term: string) => term.length > 1,
    };
    const tries: SearchOptions[] = [
      { ...how, combineWith: "AND" },
      { ...how, combineWith: "AND", fuzzy: within(1) },
      { ...how, combineWith: "AND", fuzzy: within(2) },
      { ...how, fuzzy: within(1) },
    ];
    let results: SearchResult[] = [];
    for (const one of tries) if (results.length === 0) results = this.#index.search(words, one);
    return results.slice(0, MOST).flatMap(({ id, terms }) => {
      const kept = this.#kept.get(String(id));
      if (!kept) return [];
      const { chapter, section, text } = kept;
      return [{ href: `#guide/${kept.id}`, chapter, section, context: around(text, new Set(terms)) }];
    });
  }
}

/** So many letters may be wrong in a word, in a short one fewer. */
const within = (most: number) => (term: string) => (term.length < 4 ? false : Math.min(most, term.length < 7 ? 1 : 2));

/** A word without its commonest endings: whoever asks for printing, or pencil, is to find what is printed or pencilled. */
function stem(word: string): string {
  const lower = word.toLowerCase();
  const [, begins] = /^(.{4,}?)(?:ing|ed|s)$/.exec(lower) ?? [];
  return (begins ?? lower).replace(/(\p{L})\1$/u, "$1");
}

/** The words of HTML that the guide's writer made. */
export function textOf(html: string): string {
  const signs: Record<string, string> = { amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" };
  return html
    .replaceAll(/<\/?(?:a|em|strong|code)\b[^>]*>/g, "")
    .replaceAll(/<[^>]*>/g, " ")
    .replaceAll(/&(amp|lt|gt|quot|#39);/g, (_, name: string) => signs[name] ?? "")
    .replaceAll(/\s+/g, " ")
    .trim();
}

/** The line of a text that has most of these words, cut between words. */
function around(text: string, terms: ReadonlySet<string>): Found["context"] {
  const words = [...text.matchAll(WORD)].map((found) => ({ at: found.index, word: found[0] }));
  const hits = words.filter(({ word }) => terms.has(stem(word)));
  const many = (from: number) =>
    new Set(hits.filter(({ at }) => at >= from && at < from + LINE - BEFORE).map(({ word }) => stem(word))).size;
  const best = hits.reduce<number | undefined>(
    (best, { at }) => (best === undefined || many(at) > many(best) ? at : best),
    undefined,
  );
  const wish = Math.max(0, (best ?? 0) - BEFORE);
  const from = wish === 0 ? 0 : (words.find(({ at }) => at >= wish)?.at ?? wish);
  const last = words.findLast(({ at, word }) => at + word.length <= from + LINE);
  const to = text.length <= from + LINE || !last ? text.length : last.at + last.word.length;
  const pieces: Found["context"] = from > 0 ? [{ text: "… ", isFound: false }] : [];
  let done = from;
  for (const { at, word } of hits) {
    if (at < from || at + word.length > to) continue;
    pieces.push({ text: text.slice(done, at), isFound: false }, { text: word, isFound: true });
    done = at + word.length;
  }
  pieces.push({ text: text.slice(done, to) + (to < text.length ? " …" : ""), isFound: false });
  return pieces.filter((piece) => piece.text !== "");
}
