//! Glissandi: a sweep over the strings needs the whole setting, not only its ends.

use crate::{Anchor, Letters};

/// A glissando from one note to another.
#[derive(Clone, Debug, PartialEq)]
pub struct Glissando {
    /// Index in [`Piece::notes`](crate::Piece::notes) of the note it leaves.
    pub from: usize,
    /// Index of the note it arrives at; `None` where its end is missing.
    pub to: Option<usize>,
    /// What each letter is during the sweep, as far as it is known.
    pub letters: Letters,
    /// How the letters are known.
    pub source: SettingSource,
    /// Where it begins.
    pub anchor: Anchor,
}

/// How a glissando's letters are known, surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum SettingSource {
    /// A diagram at it.
    Diagram,
    /// Letters with accidentals in words at it.
    Words,
    /// Its notes are written out: seven letters in a row.
    WrittenOut,
    /// Only the key signature and the accidentals in force: a guess, and a diagnostic says so.
    KeyAndAccidentals,
}
