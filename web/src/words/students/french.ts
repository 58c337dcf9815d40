import type { StudentsWords } from "./english";

const plural = (n: string, one: string, more: string) => `${n} ${n === "1" || n === "0" ? one : more}`;

export const french: StudentsWords = {
  heading: "Les fichiers des élèves",
  how: "Une élève enregistre un fichier sous « Pour votre professeur », à la page Journal, et vous le donne. Il est lu sur cet appareil seulement : rien n’en est gardé, envoyé ni ajouté à votre propre journal, et une fois fermé il est oublié.",
  open: "Ouvrir des fichiers",
  show: "Montrer",
  all: (n) => `les ${n}`,
  closeAll: "Tout fermer",
  close: "Fermer",
  closeThis: (name) => `Fermer ${name}`,
  name: "Nom, tant qu’il est ouvert",
  file: (name) => `Fichier : ${name}`,
  reading: (name) => `Lecture de ${name}…`,
  trouble: {
    large: (mb) =>
      `Ce fichier dépasse ${mb} Mo et n’est pas ouvert. Demandez-en un à partir d’un jour plus récent, ou sans l’air ni le réglage.`,
    empty: "Ce fichier est vide. Demandez à l’élève de l’enregistrer de nouveau.",
    foreign:
      "Aucune ligne de ce fichier n’est une écriture d’un journal. Demandez à l’élève le fichier que la page Journal enregistre sous « Pour votre professeur », envoyé comme fichier et non copié comme texte.",
    failed: (why) => `Ce fichier n’a pas pu être lu : ${why}. Fermez-le et ouvrez-le de nouveau.`,
  },
  twin: (file, name) => `${file} contient les mêmes écritures que ${name}, déjà ouvert.`,
  tooMany: (n, most) =>
    `${plural(n, "fichier était", "fichiers étaient")} de trop : ${most} peuvent être ouverts à la fois.`,
  records: (n, devices) => `${plural(n, "écriture", "écritures")} de ${plural(devices, "appareil", "appareils")}.`,
  from: (from, to) => (from === to ? `Du ${from}.` : `Du ${from} au ${to}.`),
  newer: (n, kinds) =>
    `${plural(n, "écriture vient", "écritures viennent")} d’une version plus récente, sans être montrée ici (${kinds}). Une version plus récente de cette page les montre.`,
  apart: (n) =>
    `${plural(n, "écriture prend", "écritures prennent")} la place d’une autre qui dit autre chose : des deux, la première compte.`,
  bad: (n) => `${plural(n, "ligne n’a", "lignes n’ont")} pas pu être lue ; le reste est montré :`,
  line: (line, why) => `Ligne ${line} : ${why}`,
  more: (n) => `et ${n} autres`,
  nothing: "Il n’y a ni tour ni exercice dedans.",
  moreHarps: (n) => `${plural(n, "autre harpe n’est pas montrée", "autres harpes ne sont pas montrées")}.`,
  noHarp: "Exercices sans harpe",
  kinds: { pedal: "Harpe à pédales", lever: "Harpe à leviers", free: "Une corde par demi-ton" },
  strings: (n, from, to) => `${n} cordes, de ${from} à ${to}`,
  meaning: "Ce que disent les chiffres",
  practice: "exercices",
  weeks: "Semaine par semaine",
  week: "Semaine du",
  rounds: "Tours",
  tuning: "Accord, minutes",
  inTune: "Juste à la fin",
  of: (n, all) => `${n} sur ${all}`,
  open_: (n) => `${n} sans fin`,
  practised: "Exercice, minutes",
  guesses: "Deviné juste",
  near: "Écart à l’oreille, cents",
  between: (from, to) => `${from} à ${to}`,
  roundsHow:
    "Les minutes sont celles des tours menés à leur fin, sans les pauses. Juste à la fin : les cordes que des tours entiers ont laissées justes, sur toutes les leurs.",
  nearHow:
    "Écart à l’oreille : la moitié des cordes accordées à l’oreille n’étaient pas plus loin. Ce qui est entre parenthèses contient le vrai chiffre 95 fois sur 100 ; en dessous de six cordes il n’y en a pas.",
  earlier: "Semaines précédentes",
  worst: "Cordes trouvées fausses le plus souvent",
  worstHow:
    "Comme elles ont été trouvées au début d’un tour, avant qu’une cheville soit tournée. Fausse veut dire sûrement plus loin que ce que ce tour appelait juste. La moitié des fois elle était plus loin que le milieu. Combien de fois une corde a été entendue importe : peu de fois disent peu.",
  worstNone: "Aucune n’était sûrement fausse au début d’un tour.",
  string: "Corde",
  out: "Fausse",
  outOf: (n, all) => `${n} fois sur ${all}`,
  usually: "Milieu, cents",
  farthest: "Au plus loin, cents",
  worstMore: (n, all) => `Les ${n} premières sur ${all}.`,
  guessed: (right, wrong, near) =>
    `Dit haut ou bas avant de tourner, comparé à la mesure : ${right} juste, ${wrong} faux, ${near} trop près pour être l’un ou l’autre.`,
  share: (share, lower, upper) => `Juste dans ${share} % des cas que l’on peut juger (de ${lower} à ${upper} %).`,
  ear: "Haut ou bas, avec des cordes fabriquées",
  earHow:
    "À partir de quel écart le haut a été distingué du bas : au-dessus, environ quatre réponses sur cinq sont justes. Chaque semaine d’après ses seules réponses ; quand il y en a peu, le chiffre reste près de l’habituel et l’intervalle est large.",
  answers: "Réponses",
  from_: "À partir de, cents",
  questions: "Les questions",
  about: {
    tuner_name: "Ce que montre un accordeur",
    pin: "Quelle cheville",
    octave_number: "Quel numéro d’octave",
    diagram_read: "Un diagramme lu",
    diagram_set: "Un diagramme posé",
  },
  asked: "Sur quoi",
  right: "Juste",
  interval: "95 fois sur 100, %",
  counted: (n, middle, interval) => `Battements comptés ${n} fois : la moitié à ${middle} par seconde près${interval}.`,
  tables: (what, whose) => `${what} : ${whose}`,
};
