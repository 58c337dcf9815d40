import type { Language } from "../words";
import { english, type RegulationWords } from "./regulation/english";

/** The words of the page Regulation, loaded with it. */
export async function regulationWords(language: Language): Promise<RegulationWords> {
  if (language === "de") return (await import("./regulation/german")).german;
  if (language === "fr") return (await import("./regulation/french")).french;
  return english;
}

export { english, type RegulationWords };
