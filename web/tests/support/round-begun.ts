/** How an invented round of a harp begins, as a record has it: all strings, from the bass, at 440 Hz. */
export const roundBegun = (harp: string, toml: string) => ({
  harp,
  toml,
  a4_hz: 440,
  open: null,
  position: "open",
  setting: null,
  levers: [],
  discless: [],
  order: { by: "from_bass" },
  tolerance: { middle_cents: 3, outer_cents: 5 },
  usual_a4_hz: null,
  touch_up: null,
  highest: [],
  listen_s: 0.6,
});
