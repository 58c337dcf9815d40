import type { GuideWords } from "./english";

/** Ce qui entoure les chapitres du guide, en français. */
export const french: GuideWords = {
  isEnglish: "Les chapitres du guide n’existent qu’en anglais.",
  search: "Chercher dans le guide",
  hint: "Un ou deux mots anglais ; une lettre fausse ne gêne pas.",
  results: "Trouvé",
  found: (sections) => (sections === 1 ? "1 endroit trouvé." : `${sections} endroits trouvés.`),
  foundMost: (sections) => `Les ${sections} meilleurs endroits sont montrés.`,
  notFound: (words) => `Rien n’a été trouvé pour « ${words} ».`,
  notFoundHow:
    "Essayez avec moins de mots ou un autre, en anglais : “pluck” (pincer), “pin” (cheville), “lever” (levier), “round” (tour).",
  groups: {
    "for-players": "Pour jouer",
    "for-teachers": "Pour enseigner",
    "for-students": "Pour apprendre",
    "at-the-desk": "Au bureau, par la commande",
  },
  all: "Tous les chapitres",
  inChapter: "Dans ce chapitre",
  next: (title) => `Suite : ${title}`,
  noChapter: "Ce chapitre n’existe pas.",
};
