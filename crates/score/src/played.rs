//! One measure in playing order.

/// A written measure at one of its playings.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Played {
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// At which playing of it, from 1.
    pub pass: u32,
}
