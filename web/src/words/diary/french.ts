import type { LeafView } from "../../made/desk";
import { short, type DiaryWords, type Figure } from "./english";

const PARTS = { fails: "ne marche pas", buzzes: "grésille", slips: "glisse", off: "n’est pas juste" } as Record<
  string,
  string
>;
const SIDES = { natural: "♮", sharp: "♯", flat: "♭" } as Record<string, string>;
const MADE_OF: Record<string, string> = {
  gut: "boyau",
  nylon: "nylon",
  fluorocarbon: "fluorocarbone",
  steel: "acier",
  bronze: "bronze",
  brass: "laiton",
  wound: "filée",
  wound_nylon: "filée sur nylon",
  wound_gut: "filée sur boyau",
};

const KINDS: Record<string, string> = {
  note: "notes",
  air: "air",
  string_fitted: "cordes montées",
  string_broken: "cordes cassées",
  string_removed: "cordes enlevées",
  spares: "cordes de réserve",
  visit: "visites du technicien",
  regulation: "contrôles de la régulation",
  fault: "défauts de la mécanique",
  reference: "le la pris",
  programme: "programmes",
  plan: "morceaux",
  reading: "mesures isolées",
  practice: "exercices",
  harp: "harpes",
  correction: "corrections",
  met: "horloges",
};

const joined = (...parts: (string | undefined | false)[]) => parts.filter((part) => part).join(", ");

function long(seconds: number, figure: Figure): string {
  const s = Math.abs(seconds);
  if (s < 90) return `${figure(s, s < 10 ? 1 : 0)} s`;
  if (s < 5400) return `${figure(s / 60)} minutes`;
  if (s < 129_600) return `${figure(s / 3600)} heures`;
  return `${figure(s / 86_400)} jours`;
}

function told({ told }: LeafView, figure: Figure): string {
  switch (told.is) {
    case "note":
      return told.string ? `${told.string} : ${told.text}` : told.text;
    case "air":
      return joined(
        told.temperature_c !== undefined && `${figure(told.temperature_c, 1)} °C`,
        told.humidity_percent !== undefined && `${figure(told.humidity_percent)} % d’humidité`,
      );
    case "string_fitted":
      return joined(
        `${told.string} montée`,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
        told.used && "déjà jouée",
        told.by && `par ${told.by}`,
      );
    case "string_broken":
      return joined(`${told.string} cassée`, told.place);
    case "string_removed":
      return `${told.string} enlevée`;
    case "spares":
      return joined(
        `Cordes de réserve : ${figure(Math.abs(told.change), 0)} ${told.change < 0 ? "de moins" : "de plus"}`,
        told.string,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
      );
    case "visit":
      return joined("Visite du technicien", told.who, told.done, told.note);
    case "regulation":
      return [
        `Régulation contrôlée : ${told.right} cordes justes sur ${told.strings}.`,
        told.to_mend.length > 0 && `À régler : ${told.to_mend.join(", ")}.`,
        told.pedals.length > 0 && `La pédale entière : ${told.pedals.join(", ")}.`,
        told.note,
      ]
        .filter((part) => part)
        .join(" ");
    case "fault": {
      const { part, name, position } = told.part;
      const what =
        part === "disc"
          ? `La fourchette de ${name} pour ${SIDES[position ?? ""] ?? ""}`
          : part === "lever"
            ? `Le levier de ${name}`
            : `La pédale de ${name}`;
      return joined(`${what} ${told.does ? (PARTS[told.does] ?? told.does) : "réparé"}`, told.note);
    }
    case "reference":
      return joined(
        `la = ${figure(told.a4_hz, 1)} Hz`,
        told.u95_cents !== undefined && `± ${figure(told.u95_cents, 1)} cents`,
        told.from,
      );
    case "programme":
      return `${joined(`Programme : ${told.title}`, told.place)}${told.pieces.length > 0 ? ` : ${told.pieces.join(" ; ")}` : ""}`;
    case "plan":
      return `${told.on_paper ? "Partie sur papier" : "Pédales prévues"} : ${told.title || told.source}`;
    case "reading": {
      const way = Math.abs(told.off_cents) < 0.05 ? "" : told.off_cents > 0 ? " trop haut" : " trop bas";
      return `${told.string ?? "?"} mesurée : ${figure(Math.abs(told.off_cents), 1)} ± ${figure(told.u95_cents, 1)} cents${way}`;
    }
    case "harp":
      return `La harpe ${told.harp} telle qu’elle est connue`;
    case "correction":
      return joined(told.withdrawn ? `Retiré : ${short(told.of)}` : `Corrigé : ${short(told.of)}`, told.why);
    case "practice":
      return `Exercé ${long(told.took_s, figure)} : ${joined(
        told.by_ear.length > 0 && `à l’oreille ${told.by_ear.join(" ")}`,
        told.sizes > 0 && `${figure(told.sizes)} cordes fabriquées`,
        told.asked > 0 && `${figure(told.asked)} questions`,
        told.counted > 0 && `battements comptés ${figure(told.counted)} fois`,
      )}`;
    case "met":
      return `L’horloge de ${short(told.device)} avait ${long(told.ahead_s, figure)} ${told.ahead_s < 0 ? "de retard" : "d’avance"}`;
    case "unknown":
      return `Une note d’une version plus récente (${told.kind}) : gardée et transmise, non montrée`;
    case "withdrawn":
      return `Retiré (${KINDS[told.kind] ?? told.kind})`;
  }
}

export const french: DiaryWords = {
  latest: "D’autres tours",
  others: "Tout le reste",
  kind: "Montrer",
  all: (n) => `tout, ${n}`,
  kinds: KINDS,
  none: "Rien encore.",
  reading: "Lecture…",
  more: "Montrer plus",
  shown: (n, of) => `${n} sur ${of}`,
  told,
  corrected: "corrigé",
  write: "Noter quelque chose",
  note: "Une note",
  keepNote: "Garder la note",
  air: "L’air de la pièce",
  temperature: "Température, °C",
  humidity: "Humidité, pour cent",
  keepAir: "Garder l’air",
  wrong: {
    nothing: "Rien n’est écrit encore.",
    temperature: "Une température entre −40 et 60 °C ?",
    humidity: "L’humidité va de 0 à 100 pour cent.",
  },
  kept: "Gardé.",
  correct: "Corriger",
  correctThis: (what) => `Corriger : ${what}`,
  correctHow: "La première écriture reste telle quelle ; celle-ci est mise à côté.",
  why: "Pourquoi (peut rester vide)",
  keepRight: "Garder la correction",
  takeBack: "Cela n’aurait pas dû être écrit",
  close: "Fermer",
  exchange: {
    heading: "L’ordinateur à côté",
    none: "Aucun serveur de cette adresse ne tient de journal. Tout est gardé ici, dans ce navigateur.",
    notYet: "Rien n’a encore été échangé.",
    last: (when, whom) => `Dernier échange ${when} avec ${whom}.`,
    counts: (sent, got) => `Écritures envoyées : ${sent}, reçues : ${got}.`,
    apart: (n) => `Deux écritures à la même place : ${n}. Les deux sont gardées des deux côtés, la première sert :`,
    refused: (n) => `${n} non prises :`,
    now: "Échanger maintenant",
    doing: "Échange…",
    busy: "Le journal est ouvert dans une autre fenêtre.",
    trouble: {
      full: "Interrompu : le disque de l’ordinateur est plein. Rien n’est perdu, tout reste ici ; faites-y de la place.",
      busy: "Interrompu : un autre programme écrit dans ce journal. On essaiera encore.",
      damaged:
        "Interrompu : le fichier du journal sur l’ordinateur est abîmé. Rien de ce navigateur n’est perdu. Restaurez-y une sauvegarde avec « sevenflats diary restore ».",
      denied: "Interrompu : le fichier du journal ne peut pas être ouvert là-bas.",
      newer: "Interrompu : une version plus récente du programme a écrit ce journal. Prenez-y cette version.",
      no_diary: "Interrompu : le fichier là-bas n’est pas un journal. Nommez le bon avec « serve --diary ».",
      full_here: "Interrompu : ce navigateur n’a plus de place. Ce qui est venu avant est gardé.",
      away: "Interrompu : l’ordinateur ne répond pas. On essaiera encore.",
      other: "Interrompu. On essaiera encore.",
    },
  },
  check: {
    heading: "Tout est-il là ?",
    look: "Vérifier",
    whole: "Rien ne manque.",
    count: (records, devices) => `Écritures : ${records}, appareils : ${devices}.`,
    gap: (device, from, to) =>
      `${device} : ${from === to ? from : `${from} à ${to}`} écrit là-bas et pas ici. Échangez avec cet appareil, ou importez son fichier.`,
    twin: (id) =>
      `${id} : deux écritures veulent cette place. Les deux sont gardées, la première sert ; si l’autre était juste, écrivez-la de nouveau.`,
    unknown: (n) => `D’une version plus récente : ${n}, gardées et transmises, non montrées.`,
    damaged: (n) => `Lignes abîmées : ${n}. Un autre appareil ou l’ordinateur les a entières.`,
    clock: (id, seen, by) =>
      seen === "ahead"
        ? `${id} : d’après son horloge, écrit dans ${by}. Regardez l’horloge de cet appareil, et celle-ci.`
        : `${id} : d’après son horloge, écrit ${by} avant l’écriture précédente. L’ordre reste celui des numéros.`,
  },
  give: {
    heading: "Pour votre professeur",
    how: "Un fichier de ce que vous choisissez, pour quelqu’un à qui vous montrez comment cela va. Rien ne quitte cet appareil tant que vous n’avez pas enregistré et donné le fichier, ou ne l’avez pas partagé. Il contient les écritures telles qu’elles ont été faites ; ce que vous avez repris n’y est pas.",
    what: "Ce qui est dedans",
    groups: {
      rounds: "tours, mesures isolées, le la pris",
      practice: "exercices",
      strings: "cordes montées, cassées, ôtées",
      regulation: "contrôles du réglage, défauts, visites du technicien",
      air: "température et humidité",
      spares: "cordes de rechange dans le tiroir",
      notes: "notes, telles que vous les avez écrites",
      programmes: "programmes et pièces",
    },
    since: "À partir de ce jour (vide : tout)",
    harp: "Harpe",
    allHarps: "toutes les harpes",
    name: "Votre nom, pour le fichier (peut rester vide)",
    none: "De ce que vous avez choisi, il n’y a rien dans votre journal.",
    count: (records, size) => `${records} ${records === "1" ? "écriture" : "écritures"}, ${size}.`,
    kb: (n) => `${n} ko`,
    mb: (n) => `${n} Mo`,
    newer: (n) =>
      `${n} ${n === "1" ? "écriture" : "écritures"} d’une version plus récente ${n === "1" ? "est laissée" : "sont laissées"} de côté : ce qui y est dit n’est pas connu ici.`,
    says: "Ce qu’elles disent",
    rounds: (n, from, to) =>
      `${n} ${n === "1" ? "tour" : "tours"}, ${from === to ? `du ${from}` : `du ${from} au ${to}`} : avec chaque pincement tel qu’il a été entendu`,
    save: "Enregistrer le fichier",
    share: "Partager…",
    notShared: "Le partage n’a pas marché d’ici. Enregistrez le fichier et envoyez-le.",
  },
  long,
  short,
};
