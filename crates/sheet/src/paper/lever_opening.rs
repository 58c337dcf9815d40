//! How a lever harp stands at first: its open tuning, and the levers that are on, letter by letter.

use harp::{OpenTuning, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use super::cut::Cut;
use super::face::Face;
use super::ink::Ink;
use super::words::words;
use super::wrap::wrap;
use crate::{LeverOpening, Style};

/// The name of an open tuning in her notes' language.
pub(crate) fn open_name(open: OpenTuning, style: &Style) -> String {
    let letter = Letter::from_char(open.as_str().chars().next().unwrap_or('C'));
    let letter = letter.unwrap_or(Letter::C);
    style
        .naming
        .language
        .name(SpelledPitch::new(letter, open.alteration(letter), 4))
}

/// Strings whose levers are on, or none, in one line.
pub(crate) fn levers_on(on: &[StringName], style: &Style) -> String {
    if on.is_empty() {
        return words(style.tongue).no_levers.to_owned();
    }
    let strings = on.iter().map(|&string| style.naming.string(string));
    strings.collect::<Vec<_>>().join(" ")
}

/// Both, drawn from a left edge down; gives how far.
pub(crate) fn draw(
    levers: &LeverOpening,
    (x, y): (f64, f64),
    style: &Style,
    cut: &Cut,
    ink: &mut Ink,
) -> f64 {
    let (u, words) = (cut.unit, words(style.tongue));
    let mut y = y + 10.0 * u;
    let end = ink.text((x, y), 10.0 * u, Face::Italic, words.open_tuning);
    ink.text(
        (x + end + 8.0 * u, y),
        13.0 * u,
        Face::Text,
        &open_name(levers.open, style),
    );
    y += 20.0 * u;
    ink.text((x, y), 10.0 * u, Face::Italic, words.levers_on);
    y += 3.0 * u;
    if levers.on.is_empty() {
        y += 15.0 * u;
        ink.text((x, y), 12.0 * u, Face::Text, words.no_levers);
    }
    for letter in Letter::ALL {
        let strings: Vec<StringName> = levers
            .on
            .iter()
            .copied()
            .filter(|string| string.letter == letter)
            .collect();
        if strings.is_empty() {
            continue;
        }
        let sounds = match levers.open.alteration(letter) {
            Alteration::Flat => Alteration::Natural,
            _ => Alteration::Sharp,
        };
        let natural = if sounds == Alteration::Natural {
            "♮"
        } else {
            ""
        };
        let name = style
            .naming
            .language
            .name(SpelledPitch::new(letter, sounds, 4))
            + natural;
        y += 16.0 * u;
        ink.text((x, y), 12.0 * u, Face::Semibold, &name);
        let indent = x + 34.0 * u;
        let told = levers_on(&strings, style);
        for (at, line) in wrap(&told, Face::Text, 12.0 * u, cut.right - indent)
            .iter()
            .enumerate()
        {
            y += if at > 0 { 15.0 * u } else { 0.0 };
            ink.text((indent, y), 12.0 * u, Face::Text, line);
        }
    }
    y
}
