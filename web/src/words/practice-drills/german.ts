import type { DrillAbout } from "../../made/desk";
import type { Kind } from "../../made/tune";
import type { Beating, PracticeDrillsWords } from "./english";

const strings = (n: number) => (n === 1 ? "1 Saite" : `${n} Saiten`);
const NOTCH: Record<Kind, string[]> = {
  pedal: ["Alle Pedale oben:", "Alle Pedale in der Mitte:", "Alle Pedale unten:"],
  lever: ["Alle Klappen gelöst:", "Alle Klappen gesetzt:", "Alle Klappen gesetzt:"],
};

/** Every sentence of practice without a harp in German. */
export const german: PracticeDrillsWords = {
  back: "Anderes üben",
  stop: "Hier aufhören",
  again: "Noch einmal",
  failed: (why) => `Das ließ sich nicht laden: ${why}`,
  sound: {
    heading: "Zuerst Ihre Lautstärke",
    how: "Stellen Sie leise, lassen Sie die leise Saite klingen, und stellen Sie lauter, bis Sie sie gut hören. Nichts danach ist lauter.",
    ear: "Mit Ohrhörern bleibt ein Ohr frei.",
    play: "Die leise Saite hören",
    invented: "Alle Saiten hier sind gerechnet; keine wurde aufgenommen.",
  },
  made: {
    heading: "Höher oder tiefer",
    what: "Zwei Saiten nacheinander. Ist die zweite höher oder tiefer als die erste? Wie weit sie auseinander liegen, folgt Ihren Antworten, bis zu dem, was Sie gerade noch hören.",
    octave: "Oktave",
    octaves: (n) =>
      n === 4
        ? "4, vom E über dem mittleren C abwärts"
        : n === 6
          ? "6, tief: kleine Lautsprecher verlieren sie"
          : String(n),
    count: "Paare",
    tell: "Nach jeder Antwort sagen, was stimmte",
    begin: "Anfangen",
    place: (n, of) => `Paar ${n} von ${of}`,
    listen: "Hören.",
    which: "Ist die zweite höher oder tiefer?",
    higher: "Höher",
    lower: "Tiefer",
    keys: "Tasten: ↑ höher, ↓ tiefer, R noch einmal.",
    repeat: "Noch einmal hören",
    right: { higher: "Richtig: sie war höher.", lower: "Richtig: sie war tiefer." },
    wrong: { higher: "Nein: sie war höher.", lower: "Nein: sie war tiefer." },
    over: "Was Sie unterschieden haben",
    answered: (right, of) => `${right} von ${of} Antworten waren richtig.`,
    threshold: (cents, lower, upper) =>
      `Sie haben Unterschiede von etwa ${cents} Cent gehört, zwischen ${lower} und ${upper}.`,
    means:
      "Bei dieser Größe sind vier von fünf Antworten richtig. Die Wahrheit liegt 95-mal in 100 zwischen den beiden Zahlen.",
    few: (n) => `Aus weniger als ${n} Antworten wird keine Zahl gemacht.`,
    kept: "Das steht nun im Tagebuch.",
  },
  beats: {
    heading: "Schwebungen zählen",
    what: "Zwei Saiten klingen acht Sekunden zusammen. Tippen Sie bei jeder Schwebung, jedem Anschwellen des Klangs, oder schreiben Sie, wie viele es in der Sekunde sind.",
    interval: "Intervall",
    any: "irgendeines",
    intervals: {
      unison: "Einklang",
      octave: "Oktave",
      fifth: "Quinte",
      fourth: "Quarte",
      third: "Große Terz",
    } as Record<Beating, string>,
    begin: "Anfangen",
    pair: (interval, low, high) => `${interval}: ${low} und ${high}`,
    tap: "Tippen",
    keys: "Auch die Leertaste tippt.",
    tapped: (taps, rate) => (rate ? `${taps}-mal getippt, ${rate} in der Sekunde` : `${taps}-mal getippt`),
    type: "Schwebungen in der Sekunde",
    answer: "Das ist meine Antwort",
    repeat: "Noch einmal hören",
    next: "Weiter",
    said: (said, truth) => `Sie haben ${said} in der Sekunde gezählt; es waren ${truth}.`,
    meet: (low, high) => `Sie schweben, wo der ${low}. Teilton der tieferen Saite auf den ${high}. der höheren trifft.`,
    tempered: (interval, rate, a) =>
      `${interval} auf diesen Saiten, gleichschwebend bei A = ${a}: ${rate} in der Sekunde.`,
    wide: (cents) => `Dieses war ${cents} Cent weiter.`,
    narrow: (cents) => `Dieses war ${cents} Cent enger.`,
    same: "Dieses war genau so.",
    over: "Was Sie gezählt haben",
    row: ["Sie", "in Wahrheit"],
  },
  drills: {
    heading: "Die Harfe kennen",
    what: "Kurze Fragen zu Ihrer Harfe, wie sie unter Stimmen gewählt ist. Was falsch war, kommt nach zwei anderen wieder.",
    about: {
      tuner_name: "Was das Stimmgerät zeigt",
      pin: "Welcher Wirbel",
      octave_number: "Oktavzahlen",
      diagram_read: "Diagramme lesen",
      diagram_set: "Diagramme stellen",
    } as Record<DrillAbout, string>,
    levers: { diagram_read: "Klappen einer Tonart", diagram_set: "Klappen setzen" },
    keys: "Tasten: die Ziffern 1 bis 9 antworten.",
    count: (right, of) => `${right} von ${of} richtig`,
    next: "Weiter",
    right: "Richtig.",
    wrong: (answer) => `Nein: ${answer}.`,
    over: "Was Sie wussten",
    none: "Diese Harfe hat dafür zu wenige Saiten.",
    shown: (name) => `Saiten, die auf ${name} stehen: Was zeigt ein Stimmgerät?`,
    shownBy: (kind, notch, shown) => `${NOTCH[kind][notch]} Das Stimmgerät zeigt ${shown}. Welche Saite ist es?`,
    pinOf: (name) => `Welcher Wirbel dreht ${name}?`,
    heldBy: "Welche Saite dreht der markierte Wirbel?",
    called: "Wie heißt die markierte Saite?",
    find: (name) => `Welche Saite ist ${name}?`,
    read: "Was sagt dieses Diagramm?",
    soundsIn: (letter) => `Wie klingen die ${letter}-Saiten?`,
    leversIn: (key) => `Welche Klappen sind in ${key}-Dur gesetzt?`,
    noLevers: "keine",
    setKey: (key) => `Stellen Sie ${key}-Dur.`,
    setLetters: (letters) => `Stellen Sie: ${letters}`,
    done: "So gestellt",
    pin: (n, marked) => `Wirbel ${n}${marked ? ", markiert" : ""}`,
    neck: (colours, named) => `Der Hals von der Seite der Spielerin. Saiten von links: ${colours.join(", ")}.${named}`,
    neckNamed: (at, name) => ` Saite ${at} ist ${name}.`,
    neckHow:
      "Die Wirbel stehen auf der anderen Seite des Halses; hier sind sie hochgeklappt. Üblich, aber nicht bei jeder Harfe so: Sehen Sie bei Ihrer nach.",
    colours: { red: "rot", dark: "dunkel", metallic: "Draht", plain: "hell" },
    harp: (count, marked) => `Eine Harfe mit ${strings(count)}, Bass links. ${marked.join("; ")}.`,
    marked: (mark, place) => `${mark ? `${mark}: ` : "Markiert: "}Saite ${place} von oben`,
    stands: {
      pedal: ["oben", "Mitte", "unten"],
      lever: ["gelöst", "gesetzt", "gesetzt"],
    },
    why: {
      shown:
        "Ein Stimmgerät kennt Tasten, keine Saiten: Es nennt die weiße oder schwarze Taste, die ebenso klingt, hier mit Kreuzen.",
      pin: "Der Saite nach oben und über den Hals folgen. Der Schlüssel auf einem anderen Wirbel zerreißt Saiten: zupfen, ein Haar drehen und hören, ob sich diese Saite bewegt.",
      octave:
        "Die Oktaven der Harfe zählen von oben und gehen von E abwärts bis F. Bei 4C steht die Oktave vorn; das mittlere C ist 4C.",
      read: "Von links D C H, der lange Strich, E F G A. Über der Linie heißt oben und ♭, auf ihr Stammton, unter ihr ♯.",
      levers: "Eine Klappe hebt ihre eigene Saite um einen Halbton, in jeder Oktave, in der sie gesetzt ist.",
    },
  },
};
