//! One written measure.

use crate::{Fraction, KeySignature, TimeSignature};

/// A measure as written, whatever the playing order makes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Measure {
    /// Its place among the written measures, from 1.
    pub index: u32,
    /// The number printed at it, as the source has it (`12`, `X1`, `0` for an upbeat).
    pub number: String,
    /// Not counted by the printed numbers: an upbeat, or the rest of a divided measure.
    pub implicit: bool,
    /// Quarters from the beginning of the piece, all measures in written order.
    pub start: Fraction,
    /// Its length in quarters: the longest over all parts, nought where nothing says.
    pub length: Fraction,
    /// The time signature in force at its beginning.
    pub time: Option<TimeSignature>,
    /// The key signature in force at its beginning on the chosen part's first staff.
    pub key: KeySignature,
    /// A repeat begins here.
    pub repeat_start: bool,
    /// A repeat ends here.
    pub repeat_end: Option<Repeat>,
    /// The ending it belongs to.
    pub ending: Option<Ending>,
}

/// The end of a repeat.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Repeat {
    /// How often the section is played in all, where the source says; else twice, or as the
    /// endings ask.
    pub times: Option<u32>,
    /// Whether it is taken again after a jump (da capo, dal segno).
    pub after_jump: bool,
}

/// An ending (volta): played only at some passes.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ending {
    /// The passes at which it is played, from 1.
    pub passes: Vec<u32>,
    /// Whether this measure is the first under its bracket.
    pub first: bool,
}
