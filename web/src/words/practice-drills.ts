import type { Language } from "../words";
import { english, type PracticeDrillsWords } from "./practice-drills/english";

/** The words of practice without a harp, loaded with it. */
export async function practiceDrillsWords(language: Language): Promise<PracticeDrillsWords> {
  if (language === "de") return (await import("./practice-drills/german")).german;
  if (language === "fr") return (await import("./practice-drills/french")).french;
  return english;
}

export { english, type PracticeDrillsWords };
