//! The words beside the harp: its title, the present string, what is not in tune, the key.

use harp::{Colour, StringName};
use pitch::Letter;

use crate::element::{Document, Element, element};
use crate::kind::Kind;
use crate::mark::Marker;
use crate::said::{counted, has_figures};
use crate::size::Layout;
use crate::standing::{Room, standing};
use crate::strings;
use crate::tone::Palette;
use crate::{Drawn, Geometry, Mark, Picture, Place, Point, Side};

/// From line to line, in units.
const LINE: f64 = 15.5;
/// Type of the list and the key, in units.
const TYPE: f64 = 12.0;
/// Widths of the list after its names, and of the key, in units.
const LIST: f64 = 109.0;
const KEY: f64 = 116.0;
/// Width of the names in the list: at least so much, or so much a letter, in units.
const NAMES: f64 = 27.0;
const NAME_LETTER: f64 = 6.9;

/// Longest line of the title, in letters: more would reach into the neck.
const TITLE_LETTERS: usize = 28;

/// Draws words on one layout in one tone.
pub(crate) struct Words<'a> {
    pub(crate) picture: &'a Picture,
    pub(crate) layout: &'a Layout,
    pub(crate) palette: &'a Palette,
}

impl Words<'_> {
    /// Title, count, and the present string large.
    pub(crate) fn head(&self, out: &mut Document) {
        let head = self.layout.head;
        let mut y = head.y;
        let mut line = |size: f64, after: f64, ink: &str, words: &str| {
            let text = self.text(head.x, y, size, ink);
            let text = if head.ends {
                text.set("text-anchor", "end")
            } else {
                text
            };
            out.text(text, words);
            y += after * self.layout.unit;
        };
        for title in lines_of(&self.picture.title, TITLE_LETTERS) {
            line(15.0, 19.0, self.palette.ink, &title);
        }
        line(13.0, 50.0, self.palette.faint_ink, &counted(self.picture));
        let strings = &self.picture.strings;
        let present = strings
            .iter()
            .find(|s| self.picture.present == Some(s.name));
        if let Some(string) = present {
            let name = self.picture.name_of(string.name);
            line(48.0, 26.0, self.palette.ink, &name);
            line(19.0, 0.0, self.palette.ink, &self.words_for(string));
        }
    }

    /// The strings that are marked, from the bass, and what the marks mean; below the harp's body
    /// where that reaches into their box.
    pub(crate) fn foot(&self, out: &mut Document, body_bottom: Option<f64>) {
        let (foot, unit) = (self.layout.foot, self.layout.unit);
        let line = LINE * unit;
        let below_body = body_bottom.map_or(foot.top, |bottom| bottom + 8.0 * unit);
        let from = Point {
            x: foot.left,
            y: foot.top.max(below_body) + line,
        };
        let room = (foot.top + foot.height - from.y).max(0.0);
        let lines = (room / line).floor() as usize + 1;
        let key = samples(self.picture);
        let list_width = (self.names_width() + LIST) * unit;
        if foot.width >= list_width + KEY * unit {
            let used = self.list(out, from, lines);
            let list = if used > 0 { list_width } else { 0.0 };
            let x = from.x + list;
            self.key(out, Point { x, ..from }, &key);
        } else {
            let below = key.len() + 1 + usize::from(has_figures(self.picture));
            let used = self.list(out, from, lines.saturating_sub(below));
            let gap = if used > 0 { 0.5 } else { 0.0 };
            let y = from.y + (used as f64 + gap) * line;
            self.key(out, Point { y, ..from }, &key);
        }
    }

    /// Writes as many of the marked strings as there is room for; gives the lines it took.
    fn list(&self, out: &mut Document, from: Point, room: usize) -> usize {
        let strings = self.picture.strings.iter();
        let marked: Vec<&Drawn> = strings
            .filter(|s| !matches!(s.mark, Mark::NotYetHeard | Mark::InTune { .. }))
            .collect();
        let shown = if marked.len() <= room {
            marked.len()
        } else {
            room.saturating_sub(1)
        };
        let unit = self.layout.unit;
        let y = |line: usize| from.y + line as f64 * LINE * unit;
        for (line, string) in marked.iter().take(shown).enumerate() {
            let name = self.picture.name_of(string.name);
            out.text(self.text(from.x, y(line), TYPE, self.palette.ink), &name);
            let x = from.x + self.names_width() * unit;
            out.text(
                self.text(x, y(line), TYPE, self.palette.ink),
                &self.words_for(string),
            );
        }
        if shown < marked.len() && room > 0 {
            let more = self.picture.words().and_more(marked.len() - shown);
            out.text(
                self.text(from.x, y(shown), TYPE, self.palette.faint_ink),
                &more,
            );
        }
        marked.len().min(room)
    }

    /// The width of the names in the list, in units: syllables take more than letters.
    fn names_width(&self) -> f64 {
        let names = self
            .picture
            .strings
            .iter()
            .map(|s| self.picture.name_of(s.name));
        let longest = names.map(|name| name.chars().count()).max();
        NAMES.max(NAME_LETTER * longest.unwrap_or_default() as f64)
    }

    fn key(&self, out: &mut Document, from: Point, rows: &[Sample]) {
        let unit = self.layout.unit;
        let places = rows.iter().enumerate().map(|(line, _)| {
            let y = from.y + (line as f64 * LINE - 4.0) * unit;
            sample_place(
                Point {
                    x: from.x + 6.0 * unit,
                    y,
                },
                unit,
            )
        });
        let geometry = Geometry {
            places: places.collect(),
            spacing: 9.0 * unit,
            bead: 3.2 * unit,
            present_bead: 3.2 * unit,
            unit,
            frame: self.layout.frame,
            side: Side::Player,
        };
        let marker = Marker {
            geometry: &geometry,
            palette: self.palette,
        };
        for (row, place) in rows.iter().zip(&geometry.places) {
            strings::one(out, &row.string, place, &geometry, false, self.palette);
            marker.draw(out, &row.string, place, false);
            let (x, y) = (from.x + 20.0 * unit, place.half.y + 4.0 * unit);
            out.text(self.text(x, y, TYPE, self.palette.faint_ink), row.words);
        }
        if has_figures(self.picture) {
            let y = from.y + rows.len() as f64 * LINE * unit;
            let text = self.text(from.x, y, TYPE, self.palette.faint_ink);
            out.text(text, self.picture.words().figures_in_cents());
        }
    }

    /// What is said of a string after its name.
    fn words_for(&self, string: &Drawn) -> String {
        let (words, kind) = (self.picture.words(), string.mark.kind());
        match (
            kind,
            standing(&string.mark, self.picture.tongue, Room::Little),
        ) {
            (Kind::Off, Some(standing)) => standing,
            (Kind::NotYetHeard | Kind::Skipped | Kind::Broken | Kind::Again, _) | (_, None) => {
                words.in_list(kind).to_owned()
            }
            (_, Some(standing)) => format!("{}, {standing}", words.in_list(kind)),
        }
    }

    fn text(&self, x: f64, y: f64, size: f64, ink: &str) -> Element {
        element("text")
            .num("x", x)
            .num("y", y)
            .num("font-size", size * self.layout.unit)
            .set("fill", ink)
    }
}

/// A text in lines of at most so many letters, broken between words; a longer word stands alone.
fn lines_of(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A row of the key.
struct Sample {
    string: Drawn,
    words: &'static str,
}

/// One row for each kind of mark that the picture has, and one for the places before.
fn samples(picture: &Picture) -> Vec<Sample> {
    let u95_cents = 0.0;
    let marks = [
        Mark::NotYetHeard,
        Mark::Off {
            cents: -30.0,
            u95_cents,
        },
        Mark::InTune {
            cents: 0.0,
            u95_cents,
        },
        Mark::Near {
            cents: 0.0,
            u95_cents: 10.0,
        },
        Mark::Moving {
            cents: 6.0,
            trail_cents: vec![-60.0, -6.0],
        },
        Mark::Again {
            cents: 0.0,
            u95_cents,
        },
        Mark::New { cents: None },
        Mark::Broken,
        Mark::Skipped,
    ];
    let found = |sample: &Mark| {
        let mut strings = picture.strings.iter();
        strings.any(|string| string.mark.kind() == sample.kind())
    };
    let mut rows: Vec<Sample> = marks
        .into_iter()
        .filter(found)
        .map(|mark| Sample {
            words: picture.words().meaning(mark.kind()),
            string: sample_string(mark, None),
        })
        .collect();
    let mut strings = picture.strings.iter();
    if strings.any(|string| string.before_cents.is_some() && string.mark.cents().is_some()) {
        rows.push(Sample {
            words: picture.words().before(),
            string: sample_string(Mark::NotYetHeard, Some(-40.0)),
        });
    }
    rows
}

fn sample_place(half: Point, unit: f64) -> Place {
    let half_length = 6.5 * unit;
    Place {
        name: StringName::new(Letter::G, 3),
        neck: Point {
            y: half.y - half_length,
            ..half
        },
        board: Point {
            y: half.y + half_length,
            ..half
        },
        half,
        reach: half_length,
        thickness: 0.8 * unit,
    }
}

fn sample_string(mark: Mark, before_cents: Option<f64>) -> Drawn {
    Drawn {
        name: StringName::new(Letter::G, 3),
        colour: Colour::Plain,
        wire: false,
        length_mm: None,
        gauge_mm: None,
        before_cents,
        mark,
    }
}
