import type { CheckPosition, CheckView } from "../../made/desk";
import type { Kind } from "../../made/tune";
import type { RegulationWords } from "./english";

const STANDS: Record<Kind, Record<CheckPosition, string>> = {
  pedal: { open: "Pédales en haut", natural: "Pédales au milieu", sharp: "Pédales en bas" },
  lever: { open: "Leviers baissés", natural: "Leviers engagés", sharp: "Leviers engagés" },
};
const MOVE: Record<Kind, Record<CheckPosition, string>> = {
  pedal: {
    open: "Toutes les pédales en haut",
    natural: "Toutes les pédales au milieu",
    sharp: "Toutes les pédales en bas",
  },
  lever: {
    open: "Baissez tous les leviers",
    natural: "Engagez tous les leviers",
    sharp: "Engagez tous les leviers",
  },
};

/** La page Régulation en français. */
export const french: RegulationWords = {
  heading: "Régulation",
  what: {
    pedal:
      "Chaque corde est entendue pédales en haut, au milieu, en bas, puis de nouveau en haut. On en tire de combien chaque degré s’écarte d’un demi-ton, et d’où cela vient.",
    lever:
      "Chaque corde est entendue levier baissé, engagé, puis de nouveau baissé. On en tire de combien chaque degré s’écarte d’un demi-ton, et d’où cela vient.",
  },
  before: [
    "Deux semaines avant une régulation : montez les cordes qui sont à changer. Une harpe réglée sur des cordes usées ne l’est plus quand on les remplace.",
    "Accordez d’abord la harpe. Une corde qui s’écarte beaucoup donne lieu à une question et n’est pas jugée.",
    "Les yeux hors du plan des cordes, comme toujours. On ne force ni pédale ni levier qui coince.",
  ],
  harp: (strings, a) => `${strings} cordes, la = ${a}, comme choisi sous Accorder.`,
  change: "Changer cela",
  time: "Le temps que vous avez",
  all: "autant qu’il en faut",
  some: "Je choisis les cordes",
  minutes: (m) => `${m} minutes`,
  takes: (strings, times, minutes) =>
    `${strings === 1 ? "1 corde" : `${strings} cordes`}, pincées ${times} fois chacune : environ ${minutes} min.`,
  none: "Aucune corde choisie n’est mue par une fourchette ou un levier.",
  which: "Quelles cordes",
  fresh: "Montées il y a moins de deux semaines : montrées, non jugées",
  freshKnown: (name, days) => `${name} (journal : ${days === 1 ? "1 jour" : `${days} jours`})`,
  freshMore: "Une autre",
  microphone: "Microphone",
  begin: "Commencer",
  roundFirst: "Un tour est en cours : finissez-le d’abord.",
  wasLeft: "Un contrôle est resté en suspens",
  leftWords: (read, left) => `${read} notes sont lues, il en reste ${left}.`,
  goOn: "Le reprendre",
  judge: "Juger ce qui est lu",
  forget: "Le laisser de côté",
  earlier: "Contrôles dans le journal",
  listed: (when, strings) => `${when} : ${strings === 1 ? "1 corde" : `${strings} cordes`}`,
  show: "Montrer",
  stands: STANDS,
  move: MOVE,
  live: "Ce qu’il faut faire maintenant",
  pluck: "pincez",
  thenPluck: "puis pincez",
  again: "encore",
  look: "vérifiez",
  pausedWord: "en pause",
  sounds: (pitch) => `à présent ${pitch}`,
  readOf: (read, of) => `${read} sur ${of}`,
  left: (minutes) => `encore ${minutes} min environ`,
  last: (name, cents) => `${name} était à ${cents}`,
  broken: (times, seconds) =>
    `Le son s’est interrompu ${times === 1 ? "une fois" : `${times} fois`}, il manque ${seconds} s ; une note qui y tombe est redemandée.`,
  pause: "Pause",
  resume: "Continuer",
  leaveOut: (name) => `Laisser ${name} de côté`,
  endNow: "Finir ici",
  voice: "Parler",
  gone: "Le microphone a disparu. Le contrôle est en pause, et ce qui est lu est gardé. Rebranchez-le ou choisissez-en un autre, puis continuez.",
  interrupted:
    "Quelque chose a interrompu le son, un appel peut-être. Le contrôle est en pause ; il reprend quand le son revient.",
  spoken(kind: Kind, view: CheckView): string {
    const name = view.string?.name ?? "";
    const move = view.word === "move" && view.position ? `${MOVE[kind][view.position]}. ` : "";
    return view.words === "" ? `${move}${name}` : `${move}${view.words} ${name}`;
  },
  findings: "Ce qui a été trouvé",
  date: (when, a) => `${when}, à la = ${a}.`,
  readStrings: (strings, plucks) => `${strings === 1 ? "1 corde" : `${strings} cordes`}, ${plucks} notes lues`,
  notRead: (left) => `, ${left} non pincées : arrêté avant la fin.`,
  nothing: "Rien n’a été lu, donc rien n’est dit.",
  noneOut: "Aucun degré ne s’écarte à coup sûr.",
  noneRead: "Aucun degré n’a été lu.",
  report: (steps) => (steps === 1 ? "1 degré pour le technicien." : `${steps} degrés pour le technicien.`),
  isUp: { pedal: "Toutes les pédales sont en haut.", lever: "Tous les leviers sont baissés." },
  beside: "À côté, avant la visite",
  noBeside: "aucun autre contrôle",
  written: "Ce contrôle est dans le journal.",
  notWritten: "Ce contrôle n’est pas encore dans le journal.",
  write: "L’inscrire",
  print: "Imprimer, ou enregistrer en PDF",
  csv: "Tableau (CSV)",
  done: "Terminé",
  table: "Chaque corde, en cents",
  columns: {
    string: "Corde",
    open: "à vide",
    natural: "au bécarre",
    sharp: "au dièse",
    sum: "les deux",
    own: "propre",
  },
  legend:
    "À vide : par rapport à sa cible. Au bécarre, au dièse : au-delà d’un demi-ton, ± la moitié d’un intervalle à 95 % ; cerclé s’il revient au technicien. Les deux : au-delà de deux demi-tons. Propre : de combien la corde est revenue ailleurs d’elle-même.",
  was: (cents) => `était ${cents}`,
  yours: "Ce qui vous revient, et ce qui revient au technicien",
  page: (number, of) => `Le rapport, page ${number} sur ${of} ; le tableau ci-dessus donne les mêmes chiffres`,
  called: {
    pedal: (strings) => `Harpe à pédales, ${strings} cordes`,
    lever: (strings) => `Harpe à leviers, ${strings} cordes`,
  },
};
