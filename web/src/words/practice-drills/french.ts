import type { DrillAbout } from "../../made/desk";
import type { Kind } from "../../made/tune";
import type { Beating, PracticeDrillsWords } from "./english";

const strings = (n: number) => (n === 1 ? "1 corde" : `${n} cordes`);
const NOTCH: Record<Kind, string[]> = {
  pedal: ["Toutes les pédales en haut,", "Toutes les pédales au milieu,", "Toutes les pédales en bas,"],
  lever: ["Tous les leviers baissés,", "Tous les leviers engagés,", "Tous les leviers engagés,"],
};

/** Every sentence of practice without a harp in French. */
export const french: PracticeDrillsWords = {
  back: "Autre exercice",
  stop: "Arrêter ici",
  again: "Encore",
  failed: (why) => `Impossible à charger : ${why}`,
  sound: {
    heading: "D’abord votre volume",
    how: "Baissez le volume, faites sonner la corde douce, et montez jusqu’à bien l’entendre. Rien de ce qui suit n’est plus fort.",
    ear: "Avec des écouteurs, gardez une oreille libre.",
    play: "Écouter la corde douce",
    invented: "Toutes les cordes ici sont calculées ; aucune n’a été enregistrée.",
  },
  made: {
    heading: "Plus haut ou plus bas",
    what: "Deux cordes l’une après l’autre. La seconde est-elle plus haute ou plus basse que la première ? L’écart suit vos réponses, jusqu’à ce que vous distinguez tout juste.",
    octave: "Octave",
    octaves: (n) =>
      n === 4
        ? "4, en descendant du mi au-dessus du do central"
        : n === 6
          ? "6, grave : les petits haut-parleurs la perdent"
          : String(n),
    count: "Paires",
    tell: "Me dire après chaque réponse",
    begin: "Commencer",
    place: (n, of) => `Paire ${n} sur ${of}`,
    listen: "Écoutez.",
    which: "La seconde est-elle plus haute ou plus basse ?",
    higher: "Plus haute",
    lower: "Plus basse",
    keys: "Touches : ↑ plus haute, ↓ plus basse, R encore.",
    repeat: "Réécouter",
    right: { higher: "Juste : elle était plus haute.", lower: "Juste : elle était plus basse." },
    wrong: { higher: "Non : elle était plus haute.", lower: "Non : elle était plus basse." },
    over: "Ce que vous avez distingué",
    answered: (right, of) => `${right} réponses justes sur ${of}.`,
    threshold: (cents, lower, upper) =>
      `Vous avez distingué des écarts d’environ ${cents} cents, entre ${lower} et ${upper}.`,
    means:
      "À cette taille, quatre réponses sur cinq sont justes. La vérité est entre les deux chiffres 95 fois sur 100.",
    few: (n) => `De moins de ${n} réponses on ne tire aucun chiffre.`,
    kept: "C’est gardé dans le journal.",
  },
  beats: {
    heading: "Battements comptés",
    what: "Deux cordes sonnent ensemble huit secondes. Tapez à chaque battement, chaque gonflement du son, ou écrivez combien il y en a par seconde.",
    interval: "Intervalle",
    any: "n’importe lequel",
    intervals: {
      unison: "Unisson",
      octave: "Octave",
      fifth: "Quinte",
      fourth: "Quarte",
      third: "Tierce majeure",
    } as Record<Beating, string>,
    begin: "Commencer",
    pair: (interval, low, high) => `${interval} : ${low} et ${high}`,
    tap: "Taper",
    keys: "La barre d’espace tape aussi.",
    tapped: (taps, rate) => (rate ? `${taps} coups, ${rate} par seconde` : `${taps} coups`),
    type: "Battements par seconde",
    answer: "C’est ma réponse",
    repeat: "Réécouter",
    next: "Suivant",
    said: (said, truth) => `Vous en avez compté ${said} par seconde ; il y en avait ${truth}.`,
    meet: (low, high) => `Ils naissent où le partiel ${low} de la corde grave rencontre le partiel ${high} de l’aiguë.`,
    tempered: (interval, rate, a) => `${interval} sur ces cordes, tempérament égal à la = ${a} : ${rate} par seconde.`,
    wide: (cents) => `Ici, ${cents} cents plus large.`,
    narrow: (cents) => `Ici, ${cents} cents plus étroit.`,
    same: "Ici, exactement cela.",
    over: "Ce que vous avez compté",
    row: ["vous", "en vérité"],
  },
  drills: {
    heading: "Connaître la harpe",
    what: "De courtes questions sur votre harpe, telle qu’elle est choisie sous Accorder. Ce qui était faux revient après deux autres.",
    about: {
      tuner_name: "Ce que montre l’accordeur",
      pin: "Quelle cheville",
      octave_number: "Numéros d’octave",
      diagram_read: "Lire les diagrammes",
      diagram_set: "Régler un diagramme",
    } as Record<DrillAbout, string>,
    levers: { diagram_read: "Les leviers d’une tonalité", diagram_set: "Régler les leviers" },
    keys: "Touches : les chiffres 1 à 9 répondent.",
    count: (right, of) => `${right} justes sur ${of}`,
    next: "Suivant",
    right: "Juste.",
    wrong: (answer) => `Non : ${answer}.`,
    over: "Ce que vous saviez",
    none: "Cette harpe a trop peu de cordes pour cela.",
    shown: (name) => `Des cordes en ${name} : que montre un accordeur ?`,
    shownBy: (kind, notch, shown) => `${NOTCH[kind][notch]} l’accordeur montre ${shown}. Quelle corde est-ce ?`,
    pinOf: (name) => `Quelle cheville tourne ${name} ?`,
    heldBy: "Quelle corde tourne la cheville marquée ?",
    called: "Comment s’appelle la corde marquée ?",
    find: (name) => `Quelle corde est ${name} ?`,
    read: "Que dit ce diagramme ?",
    soundsIn: (letter) => `Que sonnent les cordes de ${letter} ?`,
    leversIn: (key) => `Quels leviers sont engagés en ${key} majeur ?`,
    noLevers: "aucun",
    setKey: (key) => `Réglez ${key} majeur.`,
    setLetters: (letters) => `Réglez : ${letters}`,
    done: "Réglé ainsi",
    pin: (n, marked) => `cheville ${n}${marked ? ", marquée" : ""}`,
    neck: (colours, named) =>
      `La console, vue du côté de la harpiste. Cordes depuis la gauche : ${colours.join(", ")}.${named}`,
    neckNamed: (at, name) => ` La corde ${at} est ${name}.`,
    neckHow:
      "Les chevilles sont de l’autre côté de la console ; ici elles sont rabattues vers le haut. C’est courant, pas sur toutes les harpes : regardez la vôtre.",
    colours: { red: "rouge", dark: "foncée", metallic: "métal", plain: "claire" },
    harp: (count, marked) => `Une harpe de ${strings(count)}, grave à gauche. ${marked.join(" ; ")}.`,
    marked: (mark, place) => `${mark ? `${mark} : ` : "Marquée : "}corde ${place} depuis le haut`,
    stands: {
      pedal: ["haut", "milieu", "bas"],
      lever: ["baissé", "engagé", "engagé"],
    },
    why: {
      shown:
        "Un accordeur connaît des touches, pas des cordes : il nomme la touche blanche ou noire qui sonne pareil, ici avec des dièses.",
      pin: "Suivez la corde jusqu’en haut et par-dessus la console. La clef sur une autre cheville casse des cordes : pincez, tournez d’un cheveu, et entendez que cette corde bouge.",
      octave:
        "Les octaves de la harpe se comptent d’en haut et vont du mi en descendant jusqu’au fa. Dans 4do l’octave se dit d’abord ; le do central est 4do.",
      read: "De gauche ré do si, le grand trait, mi fa sol la. Au-dessus de la ligne, en haut et bémol ; sur elle, bécarre ; au-dessous, dièse.",
      levers: "Un levier hausse sa propre corde d’un demi-ton, dans chaque octave où il est engagé.",
    },
  },
};
