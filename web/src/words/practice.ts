import type { Language } from "../words";
import { english, type PracticeWords } from "./practice/english";

/** The words of the page Practice, loaded with it. */
export async function practiceWords(language: Language): Promise<PracticeWords> {
  if (language === "de") return (await import("./practice/german")).german;
  if (language === "fr") return (await import("./practice/french")).french;
  return english;
}

export { english, type PracticeWords };
