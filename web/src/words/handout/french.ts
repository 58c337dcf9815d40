import type { HandoutWords } from "./english";

/** Ce qui entoure une feuille pour un élève, en français. */
export const french: HandoutWords = {
  heading: "Une feuille pour un élève",
  what: "Deux pages pour la harpe de la maison : ses cordes avec leurs couleurs, ce qu’un accordeur montre pour chacune, comment on accorde, une corde neuve, la prudence, qui appeler, et des lignes pour vos notes.",
  harp: "La harpe de l’élève",
  own: (harp) => `comme sous Accorder : ${harp}`,
  kinds: { pedal: "Harpes à pédales", lever: "Harpes à leviers" },
  called: {
    pedal: (strings) => `harpe à pédales, ${strings} cordes`,
    lever: (strings) => `harpe à leviers, ${strings} cordes`,
  },
  student: "Le nom de l’élève, s’il doit y figurer",
  keep: "Garder le nom dans ce navigateur ; sinon il est oublié quand la page se ferme",
  pitch: "Accordée avec un la à",
  language: "Langue de la feuille",
  paper: "Papier",
  papers: { a4: "A4, 210 × 297 mm", letter: "Letter, 8½ × 11 pouces" },
  print: "Imprimer, ou garder en PDF",
  how: "Des deux côtés d’une feuille, en taille réelle. Sans couleurs aussi, les cordes de do et de fa sont les plus épaisses.",
  making: "Les pages se préparent.",
  made: (pages) => (pages === 1 ? "1 page est prête." : `${pages} pages sont prêtes.`),
  pages: "Ses pages",
  page: (number, of) => `La feuille, page ${number} sur ${of} ; ses mots sont dessous, en texte`,
  asText: "La même chose en texte",
  textOf: (number) => `Page ${number}`,
};
