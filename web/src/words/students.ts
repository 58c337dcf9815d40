import type { Language } from "../words";
import { english, type StudentsWords } from "./students/english";

/** The words of students' files, loaded with the page Teaching. */
export async function studentsWords(language: Language): Promise<StudentsWords> {
  if (language === "de") return (await import("./students/german")).german;
  if (language === "fr") return (await import("./students/french")).french;
  return english;
}

export { english, type StudentsWords };
