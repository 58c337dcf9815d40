import { english, type Words } from "./words/english";

/** The languages, by their code. */
export const LANGUAGES = { en: "English", de: "Deutsch", fr: "Français" } as const;
export type Language = keyof typeof LANGUAGES;

/** The first of the browser's languages that the page speaks. */
export function browsers(wished: readonly string[] = navigator.languages): Language {
  for (const tag of wished) {
    const code = tag.slice(0, 2).toLowerCase();
    if (code in LANGUAGES) return code as Language;
  }
  return "en";
}

/** The words of a language; English is at hand, the others are loaded. */
export async function wordsOf(language: Language): Promise<Words> {
  if (language === "de") return (await import("./words/german")).german;
  if (language === "fr") return (await import("./words/french")).french;
  return english;
}

export { english, type Words };
