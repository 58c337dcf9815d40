/** Some weeks of an invented harp, a line each: every kind that the diary has, and one of a newer version. */
export function weeks(): string[] {
  const body: [string, number, unknown][] = [
    ["note", 1, { harp: null, string: null, text: "A new carpet under the harp." }],
    ["note", 1, { harp: "big", string: "G3", text: "It sounds a little dull." }],
    ["air", 1, { harp: null, temperature_c: 20.5, humidity_percent: 44 }],
    [
      "string_fitted",
      1,
      { harp: "big", string: "A4", on: null, material: "gut", gauge_mm: 1.02, used: false, by: "the technician" },
    ],
    ["string_broken", 1, { harp: "big", string: "E5", on: "2026-11-08", place: "at the knot" }],
    ["string_removed", 1, { harp: "big", string: "D5", on: null }],
    ["reference", 1, { harp: null, a4_hz: 441.6, u95_cents: 0.8, from: "the oboe" }],
    ["fault", 1, { harp: "big", part: { part: "pedal", letter: "F" }, does: "buzzes", on: null, note: "" }],
    [
      "programme",
      1,
      {
        title: "An evening by the weir",
        on: "2026-12-04",
        place: "the old hall",
        pieces: [{ title: "Two Lakes", harp: "big", plan: null, note: "" }],
      },
    ],
    ["met", 1, { device: "phone", seq: 9, ahead_s: 96.4 }],
    [
      "correction",
      1,
      {
        of: { device: "weeks", seq: 3 },
        now: { kind: "air", v: 1, body: { harp: null, temperature_c: 19.5, humidity_percent: 44 } },
        why: "the other thermometer",
      },
    ],
    ["dream", 3, { of: "strings" }],
  ];
  return body.map(([kind, v, body], at) => {
    const day = String(1 + Math.floor(at / 3)).padStart(2, "0");
    return JSON.stringify({ device: "weeks", seq: at + 1, at: `2026-11-${day}T18:40:00Z`, kind, v, body });
  });
}

/** The same as a file that the page takes in. */
export const weeksFile = (lines: string[] = weeks()) => ({
  name: "weeks.ndjson",
  mimeType: "application/x-ndjson",
  buffer: Buffer.from(lines.join("\n")),
});
