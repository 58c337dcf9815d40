import type { Language } from "../words";
import { english, type ProgrammeWords } from "./programme/english";

/** The words of the page Programme, loaded with it. */
export async function programmeWords(language: Language): Promise<ProgrammeWords> {
  if (language === "de") return (await import("./programme/german")).german;
  if (language === "fr") return (await import("./programme/french")).french;
  return english;
}

export { english, type ProgrammeWords };
