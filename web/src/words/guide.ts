import type { Language } from "../words";
import { english, type GuideWords } from "./guide/english";

/** The words around the guide, loaded with it; its chapters are in English. */
export async function guideWords(language: Language): Promise<GuideWords> {
  if (language === "de") return (await import("./guide/german")).german;
  if (language === "fr") return (await import("./guide/french")).french;
  return english;
}

export { english, type GuideWords };
