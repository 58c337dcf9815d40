//! The strings in a table, the highest on top: a row for each octave, a column for each letter; below it what they sound
//! and what a tuner shows.

use harp::Colour;
use pitch::{Language, Letter, harp_octave};

use super::sections::{is_still, letter};
use super::words::words;
use super::{Handout, HandoutString};
use crate::Style;
use crate::paper::face::Face;
use crate::paper::ink::{Dye, Ink};
use crate::paper::wrap::wrap;

/// The harp's octave from the top down.
const DOWN: [Letter; 7] = [
    Letter::E,
    Letter::D,
    Letter::C,
    Letter::B,
    Letter::A,
    Letter::G,
    Letter::F,
];
const SIZE: f64 = 10.5;
const ROW: f64 = 14.6;
/// The size of what stands around it.
const SMALL: f64 = 9.2;
/// How long the piece of string is that heads a column.
const STRING: f64 = 17.0;

/// The table from its own corner, and how high it is.
pub(super) fn grid(handout: &Handout, width: f64, style: &Style) -> (Ink, f64) {
    let words = words(style.tongue);
    let mut table = Table {
        ink: Ink::default(),
        width,
        y: 0.0,
    };
    table.string_ends(handout);
    let octave = |string: &HandoutString| harp_octave(string.name.letter, string.name.octave);
    let lowest = handout.strings.iter().map(octave).max().unwrap_or(-1);
    let highest = handout.strings.iter().map(octave).min().unwrap_or(0);
    for row in highest..=lowest {
        table.row(ROW, |letter| {
            let string = handout.strings.iter();
            let mut here = string.filter(|one| octave(one) == row && one.name.letter == letter);
            let string = here.next()?;
            let still = if is_still(string) { "*" } else { "" };
            let face = match string.colour {
                Colour::Red | Colour::Dark => Face::Semibold,
                Colour::Metallic | Colour::Plain => Face::Text,
            };
            Some((style.naming.string(string.name) + still, face))
        });
    }
    table.rule();
    let language = style.naming.language;
    table.label(words.of(words.sounds, handout.lever));
    table.letters(handout, |string| language.name(string.sounds));
    table.label(words.shows);
    table.letters(handout, |string| language.name(string.shown));
    if language != Language::English {
        table.label(words.in_letters);
        table.letters(handout, |string| Language::English.name(string.shown));
    }
    table.rule();
    table.asides(handout, style);
    (table.ink, table.y)
}

struct Table {
    ink: Ink,
    width: f64,
    y: f64,
}

impl Table {
    fn middle(&self, column: usize) -> f64 {
        self.width * (column as f64 + 0.5) / DOWN.len() as f64
    }

    /// A piece of a string over each column, in its colour.
    fn string_ends(&mut self, handout: &Handout) {
        for (at, letter) in DOWN.into_iter().enumerate() {
            let one = handout.strings.iter().find(|one| one.name.letter == letter);
            if let Some(string) = one {
                let x = self.middle(at);
                let (width, dye) = drawn(string.colour);
                self.ink.string(((x, 0.0), (x, STRING)), width, dye);
            }
        }
        self.y = STRING;
    }

    fn row(&mut self, height: f64, cell: impl Fn(Letter) -> Option<(String, Face)>) {
        self.y += height;
        for (at, letter) in DOWN.into_iter().enumerate() {
            if let Some((text, face)) = cell(letter) {
                let place = (self.middle(at), self.y);
                self.ink.centred(place, SIZE, face, &text);
            }
        }
    }

    /// What is the same for all strings of a letter.
    fn letters(&mut self, handout: &Handout, told: impl Fn(&HandoutString) -> String) {
        self.row(ROW - 1.0, |letter| {
            let mut strings = handout.strings.iter();
            let string = strings.find(|one| one.name.letter == letter && one.moves);
            let any = || handout.strings.iter().find(|one| one.name.letter == letter);
            string.or_else(any).map(|one| (told(one), Face::Text))
        });
    }

    fn rule(&mut self) {
        self.y += 6.0;
        self.ink.line((0.0, self.y), (self.width, self.y), 0.4);
    }

    fn label(&mut self, text: &str) {
        self.y += 3.4;
        self.small(text, Face::Italic);
    }

    fn small(&mut self, text: &str, face: Face) {
        for line in wrap(text, face, SMALL, self.width) {
            self.y += SMALL * 1.27;
            self.ink.text((0.0, self.y), SMALL, face, &line);
        }
    }

    fn asides(&mut self, handout: &Handout, style: &Style) {
        let words = words(style.tongue);
        let [e, f, c] = [Letter::E, Letter::F, Letter::C].map(|one| letter(one, style));
        let mut all = vec![(words.colours)(&c, &f), (words.octaves)([&e, &f, &c])];
        let by_a_sharp = handout.strings.iter().find(|one| one.shown.alter > 0);
        if let Some(string) = by_a_sharp {
            let names = [string.sounds, string.shown].map(|pitch| Language::English.name(pitch));
            all.push((words.flats)(&names[0], &names[1]));
        }
        if handout.strings.iter().any(is_still) {
            all.push(words.of(words.unmoved, handout.lever).to_owned());
        }
        for text in all {
            self.y += 2.4;
            self.small(&text, Face::Text);
        }
    }
}

/// How a string of a colour is drawn: thick and of its colour where she finds her way by it.
pub(super) fn drawn(colour: Colour) -> (f64, Dye) {
    match colour {
        Colour::Red => (1.5, Dye::Red),
        Colour::Dark => (1.5, Dye::Blue),
        Colour::Metallic => (0.8, Dye::Black),
        Colour::Plain => (0.45, Dye::Black),
    }
}
