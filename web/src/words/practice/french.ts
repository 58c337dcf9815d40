import type { PracticeWords } from "./english";

/** La même chose en français. */
export const french: PracticeWords = {
  heading: "S’exercer",
  what: "L’oreille d’abord, l’œil ensuite : ce qui est mesuré reste caché tant que vous n’avez pas écouté, dit et tourné.",
  roundFirst: "Un accord est en cours : terminez-le d’abord.",
  toRound: "À l’accord en cours",
  withHarp: "Avec votre harpe : accorder à l’oreille",
  withHarpWhat:
    "Vous pincez deux cordes, dites si l’une est trop haute ou trop basse, et l’accordez sur l’autre. Ensuite seulement on voit ce que vous avez fait et les battements qu’on pouvait entendre. Toutes les pédales en haut, ou tous les leviers relâchés.",
  withoutHarp: "Sans harpe",
  madeWhat: "Deux cordes l’une après l’autre, de plus en plus proches : la plus petite différence que vous entendez.",
  beatsWhat: "Deux cordes à la fois : combien de battements par seconde ?",
  drillsWhat: "Noms, numéros d’octave, chevilles et diagrammes, sur la harpe que vous avez choisie.",
  drill: "Ce qu’on accorde",
  earDrills: {
    octave: "des octaves",
    unison: "des unissons, par une pédale ou un levier",
    fifth: "des quintes",
    letter: "toutes les cordes d’une note",
  },
  octave: "Dans l’octave de la harpe",
  letter: "Note",
  strings: (n) => (n === 1 ? "1 corde." : `${n} cordes.`),
  nothing: "Cette harpe n’a pas de telle paire de cordes.",
  harp: (strings, a) => `${strings} cordes, la = ${a}, comme choisi sous Accorder.`,
  change: "Changer cela",
  setOff:
    "Prenez la harpe telle qu’elle est ; ou faites d’abord détendre une corde d’un cheveu par quelqu’un. Jamais loin vers le haut.",
  cautions: [
    "Un cheveu à la fois, et jamais loin au-dessus de sa note : une corde trop tournée casse. Visage et yeux hors du plan des cordes.",
    "La clé est-elle sur la bonne cheville ? Suivez la corde vers le haut et par-dessus. Un enfant accorde avec un adulte.",
    "Poignet et épaule souples ; arrêtez quand ils fatiguent.",
  ],
  begin: "Commencer",
  hidden: "Rien n’est montré de ce qui est entendu.",
  hears: "Microphone",
  live: "Ce qui vient maintenant",
  pluck: "pincez",
  once: "pincez encore une fois",
  stays: "Elle reste telle quelle.",
  willTune: "C’est celle que vous accorderez.",
  asLeft: "Telle que vous l’avez laissée.",
  moved: ({ what, of, to }) =>
    what === "lever"
      ? `Levier de ${of} engagé, tous les autres relâchés.`
      : `Pédale de ${of} ${to === "sharp" ? "en bas" : "au milieu"}, toutes les autres en haut.`,
  movedNote: "La corde qui reste sonne comme son disque ou son levier la fait.",
  highOrLow: (tuned, stays) => `${tuned}, contre ${stays} :`,
  high: "trop haut",
  low: "trop bas",
  cannotTell: "Je n’entends pas",
  tune: (tuned, stays) => `Accordez ${tuned} sur ${stays}, à l’oreille.`,
  listen: "Pincez les deux autant que vous voulez. Battements plus lents : plus près.",
  wanted: (beats) => (beats === undefined ? "" : `Le tempérament égal a ici ${beats} battements par seconde.`),
  wantedNone: "Il ne devrait rester aucun battement.",
  there: "Elle y est",
  pass: "Continuer sans elle",
  another: (name) => `C’était ${name}.`,
  farUp: (tuned) =>
    `Arrêtez. Si c’était ${tuned}, elle est bien au-dessus de sa note : détendez-la. La clé est-elle sur la bonne cheville ?`,
  known: (tuned) => `${tuned}, à l’oreille`,
  said: {
    right: (said) => `Vous avez dit ${said} : c’était juste.`,
    wrong: (said) => `Vous avez dit ${said} : c’était l’inverse.`,
    too_near: (said) => `Vous avez dit ${said} : elle était trop près pour l’un ou l’autre.`,
  },
  unsaid: "Vous n’avez pas dit dans quel sens.",
  before: (off) => `Avant, elle était ${off}.`,
  after: (off) => `Vous l’avez laissée ${off}.`,
  off: (cents, u95, way) =>
    way === "there" ? `juste, ± ${u95} cents` : `${cents} ± ${u95} cents trop ${way === "high" ? "haut" : "bas"}`,
  notMeasured: "Cela n’a pas été mesuré.",
  heard: (beats, low, high) =>
    `On pouvait entendre ${beats} battements par seconde, là où le partiel ${low} de la corde grave rencontre le partiel ${high} de l’aiguë.`,
  temperament: (beats) => `Le tempérament égal en a ${beats}.`,
  doubtful: "Si loin : était-ce bien cette corde ? Une voisine sonne ainsi.",
  next: "Corde suivante",
  end: "Terminer",
  back: "Retour aux exercices",
  done: (done, of) => `${done} sur ${of}`,
  broken: (times) =>
    `Le son a été interrompu ${times === 1 ? "une fois" : `${times} fois`} ; ce qui y est tombé est redemandé.`,
  what_came: "Ce que vous avez fait à l’oreille",
  columns: ["Corde", "Vous avez dit", "Avant, cents", "Après, cents", "Durée, s"],
  nothingTuned: "Aucune corde n’a été accordée.",
  kept: "C’est dans le journal.",
  past: "Vos propres semaines",
  pastWhat:
    "Comment vous avez accordé et travaillé, semaine après semaine, d’après votre journal : votre passé, celui de personne d’autre.",
  pastShow: "Montrer mes semaines",
  pastReading: "Lecture…",
};
