//! Strings without discs, in words: what each is set to, and what must be turned before a piece.

use pitch::SpelledPitch;

use super::words::words;
use crate::{BeforePiece, KeyedString, Style};

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

/// What is turned by key before a piece.
pub(crate) fn turned(before: &BeforePiece, style: &Style) -> Vec<String> {
    let words = words(style.tongue);
    let told = before.turned.iter().map(|turn| {
        let string = style.naming.string(turn.string);
        let (from, to) = (named(turn.from, style), named(turn.to, style));
        (words.turned)(&string, &from, &to).replace(' ', "\u{a0}")
    });
    told.collect()
}
