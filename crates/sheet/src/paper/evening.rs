//! An evening: pieces in the order in which they are played.

use crate::PieceSheet;

/// What is played on one evening.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Evening {
    /// What stands at the top.
    pub title: String,
    /// A line under it, such as the place and the day, or nothing.
    pub note: String,
    /// The pieces in order.
    pub pieces: Vec<PieceSheet>,
}
