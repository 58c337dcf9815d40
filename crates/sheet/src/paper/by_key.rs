//! Strings without discs, in words: what each is set to, and what must be turned before a piece.

use harp::StringName;
use pitch::SpelledPitch;

use super::words::words;
use crate::{KeyedString, PieceSheet, Style};

/// How strings without discs are set, as far as it is known.
#[derive(Debug, Default)]
pub(crate) struct Set(Vec<(StringName, SpelledPitch)>);

impl Set {
    /// Sets one; gives what it was set to before.
    fn insert(&mut self, string: StringName, pitch: SpelledPitch) -> Option<SpelledPitch> {
        if let Some((_, known)) = self.0.iter_mut().find(|(name, _)| *name == string) {
            return Some(std::mem::replace(known, pitch));
        }
        self.0.push((string, pitch));
        None
    }
}

/// A pitch without its octave, a natural said.
pub(crate) fn named(pitch: SpelledPitch, style: &Style) -> String {
    let natural = if pitch.alter == 0 { "♮" } else { "" };
    style.naming.language.name(pitch) + natural
}

/// `7C to C♯, 7D to D♭`; where one is retuned within a movement, that too.
pub(crate) fn set_to(strings: &[KeyedString], style: &Style) -> String {
    let words = words(style.tongue);
    let told = strings.iter().map(|keyed| {
        let (string, pitch) = (style.naming.string(keyed.string), named(keyed.pitch, style));
        let to = (words.set_to)(&string, &pitch);
        // a line is not broken between a string and its pitch
        let to = to.replace(' ', "\u{a0}");
        match &keyed.in_rest {
            Some(bar) => format!("{to} {}", (words.in_rest)(&bar.label)),
            None => to,
        }
    });
    told.collect::<Vec<_>>().join(", ")
}

/// What must be turned by key before a piece, as the strings stand after the one before; and how they stand after it.
pub(crate) fn turned_before(piece: &PieceSheet, set: &mut Set, style: &Style) -> Vec<String> {
    let words = words(style.tongue);
    let mut turned = Vec::new();
    for (at, movement) in piece.movements.iter().enumerate() {
        for keyed in &movement.by_key {
            let before = set.insert(keyed.string, keyed.pitch);
            let first = at == 0 && keyed.in_rest.is_none();
            let moved = before.filter(|before| *before != keyed.pitch);
            if let (true, Some(before)) = (first, moved) {
                let string = style.naming.string(keyed.string);
                let (from, to) = (named(before, style), named(keyed.pitch, style));
                turned.push((words.turned)(&string, &from, &to).replace(' ', "\u{a0}"));
            }
        }
    }
    turned
}
