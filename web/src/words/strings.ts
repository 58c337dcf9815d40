import type { Language } from "../words";
import { english, type StringsWords } from "./strings/english";

/** The words of the page Strings, loaded with it. */
export async function stringsWords(language: Language): Promise<StringsWords> {
  if (language === "de") return (await import("./strings/german")).german;
  if (language === "fr") return (await import("./strings/french")).french;
  return english;
}

export { english, type StringsWords };
