//! Tempo: quarters in a minute, from a written place on.

use crate::Fraction;

/// The tempo where a score gives none, in quarters a minute.
pub(crate) const UNSAID: f64 = 100.0;

/// A tempo from a written place on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tempo {
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// Quarters in a minute, positive.
    pub quarters_per_minute: f64,
}

/// The tempos of a piece, in written order. After a jump the tempo is again that of the place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TempoMap {
    tempos: Vec<Tempo>,
}
