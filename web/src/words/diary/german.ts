import type { LeafView } from "../../made/desk";
import { short, type DiaryWords, type Figure } from "./english";

const PARTS = { fails: "geht nicht", buzzes: "schnarrt", slips: "rutscht", off: "stimmt nicht" } as Record<
  string,
  string
>;
const SIDES = { natural: "♮", sharp: "♯", flat: "♭" } as Record<string, string>;
const MADE_OF: Record<string, string> = {
  gut: "Darm",
  nylon: "Nylon",
  fluorocarbon: "Fluorcarbon",
  steel: "Stahl",
  bronze: "Bronze",
  brass: "Messing",
  wound: "umsponnen",
  wound_nylon: "auf Nylon umsponnen",
  wound_gut: "auf Darm umsponnen",
};

const KINDS: Record<string, string> = {
  note: "Notizen",
  air: "Luft",
  string_fitted: "aufgezogene Saiten",
  string_broken: "gerissene Saiten",
  string_removed: "abgenommene Saiten",
  spares: "Ersatzsaiten",
  visit: "Besuche vom Techniker",
  regulation: "Prüfungen der Regulierung",
  fault: "Fehler der Mechanik",
  reference: "das genommene A",
  programme: "Programme",
  plan: "Stücke",
  reading: "einzelne Messungen",
  practice: "Üben",
  harp: "Harfen",
  correction: "Berichtigungen",
  met: "Uhren",
};

const joined = (...parts: (string | undefined | false)[]) => parts.filter((part) => part).join(", ");

function long(seconds: number, figure: Figure): string {
  const s = Math.abs(seconds);
  if (s < 90) return `${figure(s, s < 10 ? 1 : 0)} s`;
  if (s < 5400) return `${figure(s / 60)} Minuten`;
  if (s < 129_600) return `${figure(s / 3600)} Stunden`;
  return `${figure(s / 86_400)} Tage`;
}

function told({ told }: LeafView, figure: Figure): string {
  switch (told.is) {
    case "note":
      return told.string ? `${told.string}: ${told.text}` : told.text;
    case "air":
      return joined(
        told.temperature_c !== undefined && `${figure(told.temperature_c, 1)} °C`,
        told.humidity_percent !== undefined && `${figure(told.humidity_percent)} % Feuchte`,
      );
    case "string_fitted":
      return joined(
        `${told.string} aufgezogen`,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
        told.used && "schon gespielt",
        told.by && `von ${told.by}`,
      );
    case "string_broken":
      return joined(`${told.string} gerissen`, told.place);
    case "string_removed":
      return `${told.string} abgenommen`;
    case "spares":
      return joined(
        `Ersatzsaiten: ${figure(Math.abs(told.change), 0)} ${told.change < 0 ? "weniger" : "mehr"}`,
        told.string,
        told.material && MADE_OF[told.material],
        told.gauge_mm !== undefined && `${figure(told.gauge_mm, 2)} mm`,
      );
    case "visit":
      return joined("Besuch vom Techniker", told.who, told.done, told.note);
    case "regulation":
      return [
        `Regulierung geprüft: ${told.right} von ${told.strings} Saiten richtig.`,
        told.to_mend.length > 0 && `Zu richten: ${told.to_mend.join(", ")}.`,
        told.pedals.length > 0 && `Das ganze Pedal: ${told.pedals.join(", ")}.`,
        told.note,
      ]
        .filter((part) => part)
        .join(" ");
    case "fault": {
      const { part, name, position } = told.part;
      const what =
        part === "disc"
          ? `Die Scheibe von ${name} für ${SIDES[position ?? ""] ?? ""}`
          : part === "lever"
            ? `Die Klappe von ${name}`
            : `Das ${name}-Pedal`;
      return joined(`${what} ${told.does ? (PARTS[told.does] ?? told.does) : "ist gerichtet"}`, told.note);
    }
    case "reference":
      return joined(
        `A = ${figure(told.a4_hz, 1)} Hz`,
        told.u95_cents !== undefined && `± ${figure(told.u95_cents, 1)} Cent`,
        told.from,
      );
    case "programme":
      return `${joined(`Programm: ${told.title}`, told.place)}${told.pieces.length > 0 ? `: ${told.pieces.join("; ")}` : ""}`;
    case "plan":
      return `${told.on_paper ? "Stimme auf Papier" : "Pedale geplant"}: ${told.title || told.source}`;
    case "reading": {
      const way = Math.abs(told.off_cents) < 0.05 ? "" : told.off_cents > 0 ? " zu hoch" : " zu tief";
      return `${told.string ?? "?"} gemessen: ${figure(Math.abs(told.off_cents), 1)} ± ${figure(told.u95_cents, 1)} Cent${way}`;
    }
    case "harp":
      return `Die Harfe ${told.harp}, wie sie bekannt ist`;
    case "correction":
      return joined(told.withdrawn ? `Zurückgenommen: ${short(told.of)}` : `Berichtigt: ${short(told.of)}`, told.why);
    case "practice":
      return `Geübt ${long(told.took_s, figure)}: ${joined(
        told.by_ear.length > 0 && `nach Gehör ${told.by_ear.join(" ")}`,
        told.sizes > 0 && `${figure(told.sizes)} künstliche Saiten`,
        told.asked > 0 && `${figure(told.asked)} Fragen`,
        told.counted > 0 && `Schwebungen ${figure(told.counted)}-mal gezählt`,
      )}`;
    case "met":
      return `Die Uhr von ${short(told.device)} ging ${long(told.ahead_s, figure)} ${told.ahead_s < 0 ? "nach" : "vor"}`;
    case "unknown":
      return `Ein Eintrag einer neueren Fassung (${told.kind}): aufgehoben und weitergegeben, nicht gezeigt`;
    case "withdrawn":
      return `Zurückgenommen (${KINDS[told.kind] ?? told.kind})`;
  }
}

export const german: DiaryWords = {
  latest: "Weitere Durchgänge",
  others: "Alles andere",
  kind: "Zeigen",
  all: (n) => `alles, ${n}`,
  kinds: KINDS,
  none: "Noch nichts.",
  reading: "Wird gelesen…",
  more: "Mehr zeigen",
  shown: (n, of) => `${n} von ${of}`,
  told,
  corrected: "berichtigt",
  write: "Etwas aufschreiben",
  note: "Eine Notiz",
  keepNote: "Notiz behalten",
  air: "Die Luft im Raum",
  temperature: "Temperatur, °C",
  humidity: "Feuchte, Prozent",
  keepAir: "Luft behalten",
  wrong: {
    nothing: "Es steht noch nichts da.",
    temperature: "Eine Temperatur zwischen −40 und 60 °C?",
    humidity: "Feuchte geht von 0 bis 100 Prozent.",
  },
  kept: "Behalten.",
  correct: "Berichtigen",
  correctThis: (what) => `Berichtigen: ${what}`,
  correctHow: "Der erste Eintrag bleibt, wie er ist; dieser wird daneben geschrieben.",
  why: "Warum (darf leer bleiben)",
  keepRight: "Berichtigung behalten",
  takeBack: "Es hätte nicht geschrieben werden sollen",
  close: "Schließen",
  exchange: {
    heading: "Der Rechner daneben",
    none: "Kein Server dieser Adresse führt ein Tagebuch. Alles liegt hier, in diesem Browser.",
    notYet: "Es wurde noch nichts ausgetauscht.",
    last: (when, whom) => `Zuletzt ausgetauscht ${when} mit ${whom}.`,
    counts: (sent, got) => `Einträge hin: ${sent}, her: ${got}.`,
    apart: (n) =>
      `Je zwei Einträge stehen an ${n === "1" ? "einem Platz" : `${n} Plätzen`}. Beide sind auf beiden Seiten aufgehoben, der frühere gilt:`,
    refused: (n) => `${n} nicht angenommen:`,
    now: "Jetzt austauschen",
    doing: "Wird ausgetauscht…",
    busy: "Das Tagebuch ist in einem anderen Fenster offen.",
    trouble: {
      full: "Abgebrochen: Die Platte des Rechners ist voll. Nichts ist verloren, alles bleibt hier; dort Platz schaffen.",
      busy: "Abgebrochen: Ein anderes Programm schreibt in jenes Tagebuch. Es wird wieder versucht.",
      damaged:
        "Abgebrochen: Die Datei des Tagebuchs auf dem Rechner ist beschädigt. Von diesem Browser ist nichts verloren. Dort mit ‚sevenflats diary restore‘ eine Sicherung zurückholen.",
      denied: "Abgebrochen: Die Datei des Tagebuchs darf dort nicht geöffnet werden.",
      newer:
        "Abgebrochen: Eine neuere Fassung des Programms hat jenes Tagebuch geschrieben. Dort diese Fassung nehmen.",
      no_diary: "Abgebrochen: Die Datei dort ist kein Tagebuch. Die richtige mit ‚serve --diary‘ nennen.",
      full_here: "Abgebrochen: Dieser Browser hat keinen Platz mehr. Was vorher kam, ist aufgehoben.",
      away: "Abgebrochen: Der Rechner antwortet nicht. Es wird wieder versucht.",
      other: "Abgebrochen. Es wird wieder versucht.",
    },
  },
  check: {
    heading: "Ist alles da?",
    look: "Durchsehen",
    whole: "Es fehlt nichts.",
    count: (records, devices) => `Einträge: ${records}, Geräte: ${devices}.`,
    gap: (device, from, to) =>
      `${device}: ${from === to ? from : `${from} bis ${to}`} dort geschrieben und nicht hier. Mit jenem Gerät austauschen, oder seine Datei einlesen.`,
    twin: (id) =>
      `${id}: Zwei Einträge wollen diesen Platz. Beide sind aufgehoben, der frühere gilt; war der andere richtig, schreiben Sie ihn noch einmal auf.`,
    unknown: (n) => `Von einer neueren Fassung: ${n}, aufgehoben und weitergegeben, nicht gezeigt.`,
    damaged: (n) => `Beschädigte Zeilen: ${n}. Ein anderes Gerät oder der Rechner hat sie heil.`,
    clock: (id, seen, by) =>
      seen === "ahead"
        ? `${id}: Nach seiner Uhr wurde dies in ${by} geschrieben. Sehen Sie nach der Uhr jenes Geräts und nach dieser.`
        : `${id}: Nach seiner Uhr wurde dies ${by} vor dem Eintrag davor geschrieben. Die Reihenfolge bleibt nach Nummern.`,
  },
  give: {
    heading: "Für die Lehrerin oder den Lehrer",
    how: "Eine Datei mit dem, was Sie wählen, für jemanden, dem Sie zeigen, wie es geht. Nichts verlässt dieses Gerät, bis Sie die Datei sichern und weitergeben oder sie teilen. Sie enthält die Einträge, wie sie geschrieben wurden; was Sie zurückgenommen haben, ist nicht darin.",
    what: "Was darin ist",
    groups: {
      rounds: "Durchgänge, einzelne Messungen, das abgenommene A",
      practice: "Üben",
      strings: "Saiten: aufgezogen, gerissen, abgenommen",
      regulation: "Prüfungen der Regulierung, Fehler, Besuche der Technik",
      air: "Temperatur und Luftfeuchte",
      spares: "Ersatzsaiten in der Schublade",
      notes: "Notizen, wie Sie sie geschrieben haben",
      programmes: "Programme und Stücke",
    },
    since: "Ab diesem Tag (leer: alles)",
    harp: "Harfe",
    allHarps: "alle Harfen",
    name: "Ihr Name, für die Datei (kann leer bleiben)",
    none: "Von dem, was Sie gewählt haben, steht nichts in Ihrem Tagebuch.",
    count: (records, size) => `${records} ${records === "1" ? "Eintrag" : "Einträge"}, ${size}.`,
    kb: (n) => `${n} kB`,
    mb: (n) => `${n} MB`,
    newer: (n) =>
      `${n} ${n === "1" ? "Eintrag" : "Einträge"} einer neueren Fassung ${n === "1" ? "bleibt" : "bleiben"} weg: Was darin steht, ist hier nicht bekannt.`,
    says: "Was sie sagen",
    rounds: (n, from, to) =>
      `${n} ${n === "1" ? "Durchgang" : "Durchgänge"}, ${from === to ? `vom ${from}` : `${from} bis ${to}`}: mit jedem Zupfen, wie es gehört wurde`,
    save: "Die Datei sichern",
    share: "Teilen …",
    notShared: "Von hier ließ sie sich nicht teilen. Sichern Sie die Datei und schicken Sie diese.",
  },
  long,
  short,
};
