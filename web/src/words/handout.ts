import type { Language } from "../words";
import { english, type HandoutWords } from "./handout/english";

/** The words around a handout, loaded with it; those on its pages come from the room that prints them. */
export async function handoutWords(language: Language): Promise<HandoutWords> {
  if (language === "de") return (await import("./handout/german")).german;
  if (language === "fr") return (await import("./handout/french")).french;
  return english;
}

export { english, type HandoutWords };
