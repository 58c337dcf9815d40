import type { Language } from "../words";
import { english, type DiaryWords } from "./diary/english";

/** The words of the page Diary, loaded with it. */
export async function diaryWords(language: Language): Promise<DiaryWords> {
  if (language === "de") return (await import("./diary/german")).german;
  if (language === "fr") return (await import("./diary/french")).french;
  return english;
}

export { english, type DiaryWords };
