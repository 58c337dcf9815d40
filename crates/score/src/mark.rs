//! What stands above, between and below the staves and matters to a harpist.

use crate::{Anchor, Fraction, Letters};

/// A mark in the source at its written place.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it is.
    pub kind: MarkKind,
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// The staff it is placed at, from 1, where said.
    pub staff: Option<u32>,
    /// Where it stands.
    pub anchor: Anchor,
}

/// The kinds of marks that are kept.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum MarkKind {
    /// A rehearsal mark. It may stand in a part that was not chosen.
    Rehearsal(String),
    /// A printed pedal diagram, `<harp-pedals>`: three of the letters or all seven.
    Diagram(Letters),
    /// Words that look like pedal letters, such as 'F♯ B♭'.
    PedalWords {
        /// As printed.
        text: String,
        /// What they say.
        letters: Letters,
    },
    /// A sign to damp.
    Damp,
    /// A sign to damp all strings.
    DampAll,
    /// Words: damped at once.
    Etouffe,
    /// A sign or words: let it ring.
    LetRing,
    /// Any other words, as printed.
    Words(String),
}
