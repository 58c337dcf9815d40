/** Scores of our own invention, as long as is wanted. */

const LETTERS = "CDEFGAB";

function note(step: string, alter: number, octave: number, duration: number, type: string, staff: 1 | 2): string {
  const sign = alter === 0 ? "" : `<alter>${alter}</alter>`;
  const pitch = `<pitch><step>${step}</step>${sign}<octave>${octave}</octave></pitch>`;
  const voice = staff === 1 ? 1 : 5;
  return `<note>${pitch}<duration>${duration}</duration><voice>${voice}</voice><type>${type}</type><staff>${staff}</staff></note>`;
}

/** Where a letter stands in a bar: a piece in B♭ that goes through other keys. */
function altered(letter: string, bar: number): number {
  if (letter === "B" || letter === "E") return bar % 24 >= 12 && bar % 24 < 16 ? 0 : -1;
  if (letter === "F") return bar % 8 === 5 ? 1 : 0;
  if (letter === "C") return bar % 32 > 27 ? 1 : 0;
  return 0;
}

const FIRST =
  "<attributes><divisions>2</divisions><key><fifths>-2</fifths></key><time><beats>4</beats><beat-type>4</beat-type></time><staves>2</staves><clef number='1'><sign>G</sign><line>2</line></clef><clef number='2'><sign>F</sign><line>4</line></clef></attributes><direction placement='above'><direction-type><metronome><beat-unit>quarter</beat-unit><per-minute>96</per-minute></metronome></direction-type><sound tempo='96'/></direction>";

function bar(number: number): string {
  const first = number === 1 ? FIRST : "";
  const mark =
    number % 8 === 1
      ? `<direction placement="above"><direction-type><rehearsal>${Math.floor(number / 8) + 1}</rehearsal></direction-type></direction>`
      : "";
  const letter = (at: number) => LETTERS[at % 7] ?? "C";
  const above = Array.from({ length: 8 }, (_, at) => {
    const step = letter(number * 3 + at * 2);
    return note(step, altered(step, number), 4 + (at % 2), 1, "eighth", 1);
  });
  const below = Array.from({ length: 4 }, (_, at) => {
    const step = letter(number + at * 2);
    return note(step, altered(step, number), 2 + (at % 2), 2, "quarter", 2);
  });
  return `<measure number="${number}">${first}${mark}${above.join("")}<backup><duration>8</duration></backup>${below.join("")}</measure>`;
}

/** A piece of so many bars for a harp; `damaged` bars are no XML. */
export function piece(bars: number, title: string, damaged: number[] = []): string {
  const music = Array.from({ length: bars }, (_, at) =>
    damaged.includes(at + 1) ? `<measure number="${at + 1}"><note><pitch></measure>` : bar(at + 1),
  );
  return `<?xml version="1.0" encoding="UTF-8"?><score-partwise version="4.0"><work><work-title>${title}</work-title></work><identification><creator type="composer">Invented for the tests of this project</creator></identification><part-list><score-part id="P1"><part-name>Harp</part-name></score-part></part-list><part id="P1">${music.join("")}</part></score-partwise>`;
}
