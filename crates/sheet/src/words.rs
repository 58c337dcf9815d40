//! The words beside the harp: its title, the present string, what is not in tune, the key.

use harp::{Colour, StringName};
use pitch::Letter;

use crate::element::{Document, Element, element};
use crate::mark::Marker;
use crate::number::standing;
use crate::said::counted;
use crate::size::Layout;
use crate::strings;
use crate::tone::Palette;
use crate::{Drawn, Geometry, Mark, Picture, Place, Point, Side};

/// From line to line, in units.
const LINE: f64 = 17.0;
/// Type of the list and the key, in units.
const TYPE: f64 = 12.5;
/// Wide enough for list and key side by side, in units.
const TWO_COLUMNS: f64 = 240.0;

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
        if !self.picture.title.is_empty() {
            line(15.0, 19.0, self.palette.ink, &self.picture.title);
        }
        line(13.0, 50.0, self.palette.faint_ink, &counted(self.picture));
        let strings = &self.picture.strings;
        let present = strings
            .iter()
            .find(|s| self.picture.present == Some(s.name));
        if let Some(string) = present {
            let name = self.picture.names.of(string.name);
            line(48.0, 26.0, self.palette.ink, &name);
            line(19.0, 0.0, self.palette.ink, &words_for(string));
        }
    }

    /// The strings that are marked, from the bass, and what the marks mean.
    pub(crate) fn foot(&self, out: &mut Document) {
        let (foot, unit) = (self.layout.foot, self.layout.unit);
        let width = self.layout.width - foot.x;
        let lines = ((self.layout.bottom - foot.y) / (LINE * unit)).floor() as usize;
        let key = kinds(self.picture);
        if width >= TWO_COLUMNS * unit {
            self.list(
                out,
                Point {
                    x: foot.x,
                    y: foot.y,
                },
                lines,
            );
            self.key(
                out,
                Point {
                    x: foot.x + 0.52 * width,
                    y: foot.y,
                },
                &key,
            );
        } else {
            let room = lines.saturating_sub(key.len() + 1);
            let used = self.list(
                out,
                Point {
                    x: foot.x,
                    y: foot.y,
                },
                room,
            );
            let y = foot.y + (used as f64 + 0.5) * LINE * unit;
            self.key(out, Point { x: foot.x, y }, &key);
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
            let name = self.picture.names.of(string.name);
            out.text(self.text(from.x, y(line), TYPE, self.palette.ink), &name);
            let x = from.x + 27.0 * unit;
            out.text(
                self.text(x, y(line), TYPE, self.palette.ink),
                &words_for(string),
            );
        }
        if shown < marked.len() && room > 0 {
            let more = format!("and {} more", marked.len() - shown);
            out.text(
                self.text(from.x, y(shown), TYPE, self.palette.faint_ink),
                &more,
            );
        }
        marked.len().min(room)
    }

    fn key(&self, out: &mut Document, from: Point, kinds: &[Mark]) {
        let unit = self.layout.unit;
        let places = kinds.iter().enumerate().map(|(line, _)| {
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
            bead: 3.6 * unit,
            present_bead: 3.6 * unit,
            unit,
            frame: self.layout.frame,
            side: Side::Player,
        };
        let marker = Marker {
            geometry: &geometry,
            palette: self.palette,
        };
        for (mark, place) in kinds.iter().zip(&geometry.places) {
            let string = sample_string(mark);
            strings::one(out, &string, place, &geometry, false, self.palette);
            marker.draw(out, &string, place, false);
            let (x, y) = (from.x + 20.0 * unit, place.half.y + 4.0 * unit);
            out.text(
                self.text(x, y, TYPE, self.palette.faint_ink),
                mark.meaning(),
            );
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

/// What is said of a string after its name.
fn words_for(string: &Drawn) -> String {
    let meaning = string.mark.meaning();
    match (&string.mark, standing(&string.mark)) {
        (Mark::Off { .. }, Some(standing)) => standing,
        (Mark::Near { .. }, Some(standing)) => format!("near, {standing}"),
        (Mark::Again { .. }, _) => "again".to_owned(),
        (Mark::NotYetHeard | Mark::Skipped | Mark::Broken, _) | (_, None) => meaning.to_owned(),
        (_, Some(standing)) => format!("{meaning}, {standing}"),
    }
}

/// One mark of each kind that the picture has, as the key shows it.
fn kinds(picture: &Picture) -> Vec<Mark> {
    let (cents, u95_cents) = (-8.0, 2.0);
    let samples = [
        Mark::NotYetHeard,
        Mark::Off {
            cents,
            u95_cents: 0.0,
        },
        Mark::InTune {
            cents: 0.0,
            u95_cents: 0.0,
        },
        Mark::Near {
            cents: -1.5,
            u95_cents,
        },
        Mark::Moving {
            cents: 0.0,
            trail_cents: vec![-60.0, -12.0],
        },
        Mark::Again {
            cents: 0.0,
            u95_cents: 0.0,
        },
        Mark::New { cents: None },
        Mark::Broken,
        Mark::Skipped,
    ];
    let found = |sample: &Mark| {
        let mut strings = picture.strings.iter();
        strings.any(|string| string.mark.meaning() == sample.meaning())
    };
    samples.into_iter().filter(found).collect()
}

fn sample_place(half: Point, unit: f64) -> Place {
    let half_length = 7.0 * unit;
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

fn sample_string(mark: &Mark) -> Drawn {
    Drawn {
        name: StringName::new(Letter::G, 3),
        colour: Colour::Plain,
        wire: false,
        length_mm: None,
        gauge_mm: None,
        before_cents: None,
        mark: mark.clone(),
    }
}
