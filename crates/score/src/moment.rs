//! All that is plucked or held on at one time of playing.

use crate::Fraction;

/// One moment of playing. Grace notes have moments of their own before their main note's.
#[derive(Clone, Debug, PartialEq)]
pub struct Moment {
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// At which playing of that measure, from 1.
    pub pass: u32,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// For a moment of grace notes: how many such moments before the main note, 1 for the last.
    pub grace: Option<u32>,
    /// Quarters of playing since the beginning; grace notes stand where their main note does.
    pub at: Fraction,
    /// Seconds of playing since the beginning; grace notes come earlier than their main note.
    pub at_s: f64,
    /// Indices in [`Piece::notes`](crate::Piece::notes), ends of ties among them.
    pub notes: Vec<usize>,
}

impl Moment {
    /// Where it stands in its measure, in quarters counted from 1, as people count beats.
    pub fn beat(&self) -> Fraction {
        self.offset.plus(Fraction::ONE).unwrap_or(self.offset)
    }
}
