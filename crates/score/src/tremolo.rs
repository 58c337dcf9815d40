//! Tremolos of two notes or chords: both sound, by turns, from the beginning of the first to the end
//! of the second.

use crate::Fraction;

/// A tremolo of two notes or chords. The notes stand where they are written, one after the other,
/// each for its share of the time.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Tremolo {
    /// Indices in [`Piece::notes`](crate::Piece::notes) of the notes of both, ascending.
    pub notes: Vec<usize>,
    /// Index of the measure in which it stands.
    pub measure: usize,
    /// Where it begins, in quarters from the beginning of the measure.
    pub from: Fraction,
    /// Where it ends, in the same way.
    pub to: Fraction,
}
