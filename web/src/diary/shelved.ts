import { neighbour } from "../keep/neighbour";
import type { Page } from "../page.svelte";
import type { Book } from "./book.svelte";

/** What reads the diary, loaded when it is needed first. */
export class Shelved {
  #page: Page;
  #book: Promise<Book> | undefined;

  constructor(page: Page) {
    this.#page = page;
  }

  #open(): Promise<Book> {
    this.#book ??= import("./book.svelte").then(({ Book }) => (this.#page.book = new Book(this.#page)));
    this.#book.catch(() => (this.#book = undefined));
    return this.#book;
  }

  /** The rounds; and where the page Diary is open, what it shows. */
  async look(): Promise<void> {
    const page = this.#page;
    try {
      const book = await this.#open();
      page.rounds = await book.rounds();
      if (page.place === "diary") await Promise.all([book.look(), book.lastExchange()]);
    } catch (error) {
      page.engineTrouble = error instanceof Error ? error.message : String(error);
    }
  }

  /** Reads what the page Strings shows before she goes there. */
  async prepare(): Promise<void> {
    const { shelfOf } = await import("../strings/shelf.svelte");
    await shelfOf(this.#page).prepare();
  }

  /** Breaks off an exchange, so that a round can have the next places. */
  async rest(): Promise<void> {
    await (await this.#book)?.rest();
  }

  /** Quietly: what the server of this address lacks goes there, what it has comes here. */
  async exchange(): Promise<void> {
    if (!this.#book && (await neighbour()) !== "keeps one") return;
    const book = await this.#open();
    book.goOn();
    await book.exchange();
  }
}
