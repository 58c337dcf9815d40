//! Time signatures.

use crate::Fraction;

/// A time signature as one fraction: 3+2 over 8 is 5/8, 2/4 + 3/8 is 7/8.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct TimeSignature {
    /// Beats.
    pub beats: u32,
    /// What is one beat: 4 for a quarter, 8 for a quaver.
    pub unit: u32,
}

impl TimeSignature {
    /// The length of a full measure in quarters.
    ///
    /// ```
    /// let six_eight = score::TimeSignature { beats: 6, unit: 8 };
    /// assert_eq!(six_eight.quarters(), score::Fraction::new(3, 1));
    /// ```
    pub fn quarters(self) -> Option<Fraction> {
        Fraction::new(4 * i64::from(self.beats), i64::from(self.unit))
    }
}
