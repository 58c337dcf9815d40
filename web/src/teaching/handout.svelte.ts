import { rememberedHandout, rememberHandout, type HandoutKept } from "../keep/handout";
import type { HandoutChoice, HandoutPage } from "../made/desk";
import type { Page } from "../page.svelte";
import { pictured } from "../parts/pictured";
import { Asking } from "../programme/asked";
import type { Language } from "../words";
import type { HandoutAsk, HandoutTell } from "./messages";

/** What is typed without a pause is made into pages at its end, milliseconds. */
const PAUSE_MS = 300;

/** A page to be seen, and its words. */
export interface ShownPage {
  src: string;
  texts: string[];
}

/** What a handout is made of, and its pages; it decides nothing that the maker could. */
export class Handout {
  kept: HandoutKept = $state(rememberedHandout());
  pages: ShownPage[] = $state.raw([]);
  making = $state(false);
  trouble: string | undefined = $state();
  readonly #page: Page;
  readonly #maker = new Asking<HandoutAsk, HandoutTell>(
    () => new Worker(new URL("./handout-maker.ts", import.meta.url), { type: "module" }),
  );
  #asked = 0;
  #pause: ReturnType<typeof setTimeout> | undefined;

  constructor(page: Page) {
    this.#page = page;
  }

  /** The harp: the one under Tune, or another. */
  get harp(): HandoutChoice["harp"] {
    const harp = this.kept.harp ?? this.#page.choices.harp;
    return harp.kind === "lever" ? { ...harp, open: this.kept.open ?? harp.open ?? "Eb" } : harp;
  }

  get a4Hz(): number {
    return this.kept.a4Hz ?? this.#page.choices.usualA4Hz ?? this.#page.choices.a4Hz;
  }

  get order(): HandoutChoice["order"] {
    return this.kept.order ?? this.#page.choices.order;
  }

  /** The language of the sheet, whatever the page's is. */
  get language(): Language {
    return this.kept.language ?? this.#page.language;
  }

  get choice(): HandoutChoice {
    const { harp, a4Hz, order, language } = this;
    const { student, paper } = this.kept;
    return { harp: $state.snapshot(harp), a4_hz: a4Hz, order, student, language, paper };
  }

  choose(change: Partial<HandoutKept>): void {
    Object.assign(this.kept, change);
    rememberHandout($state.snapshot(this.kept));
  }

  /** Makes the pages for this choice, when nothing more was chosen for a moment. */
  make(choice: HandoutChoice): void {
    clearTimeout(this.#pause);
    this.making = true;
    const asked = ++this.#asked;
    this.#pause = setTimeout(() => void this.#make(choice, asked), this.pages.length === 0 ? 0 : PAUSE_MS);
  }

  async #make(choice: HandoutChoice, asked: number): Promise<void> {
    let made: HandoutPage[] = [];
    let why: string | undefined;
    try {
      const tell = await this.#maker.ask({ choice });
      if (tell.is === "pages") made = tell.pages;
    } catch (error) {
      why = error instanceof Error ? error.message : String(error);
    }
    if (asked !== this.#asked) return;
    this.pages = made.map(({ svg, texts }) => ({ src: pictured(svg), texts }));
    this.trouble = why;
    this.making = false;
  }
}

const handouts = new WeakMap<Page, Handout>();

/** The handout of a page: what was typed stays while the page is open. */
export function handoutOf(page: Page): Handout {
  const own = handouts.get(page) ?? new Handout(page);
  handouts.set(page, own);
  return own;
}
