//! How much to turn, in cents and in the hand's words.
//!
//! The steps are our own choice, no source: what a hand on the key can tell apart.

use crate::Direction;

/// From here on, in cents, only half of the distance at once.
pub const FAR_CENTS: f64 = 50.0;
/// Up to so many cents it is a hair.
const HAIR_CENTS: f64 = 8.0;
/// Up to so many cents it is a little.
const LITTLE_CENTS: f64 = 20.0;

/// How far, in the hand's words.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Amount {
    /// Up to 8 cents.
    Hair,
    /// Up to 20 cents.
    Little,
    /// Up to 50 cents.
    More,
    /// Beyond: half of it, then listen again.
    Half,
}

impl Amount {
    /// The word for a string so many cents off, either way.
    ///
    /// ```
    /// use tuning::round::Amount;
    /// assert_eq!(Amount::of(-12.0), Amount::Little);
    /// ```
    pub fn of(off_cents: f64) -> Amount {
        match off_cents.abs() {
            off if off <= HAIR_CENTS => Amount::Hair,
            off if off <= LITTLE_CENTS => Amount::Little,
            off if off <= FAR_CENTS => Amount::More,
            _ => Amount::Half,
        }
    }

    /// The word, as it follows 'up' or 'down'.
    pub fn as_str(self) -> &'static str {
        match self {
            Amount::Hair => "a hair",
            Amount::Little => "a little",
            Amount::More => "more",
            Amount::Half => "by half of that",
        }
    }

    /// How many cents to move at once a string that is so many cents off: the whole way, or half of it from
    /// [`FAR_CENTS`] on. Never negative.
    ///
    /// ```
    /// use tuning::round::Amount;
    /// assert_eq!(Amount::at_once(-20.0), 20.0);
    /// assert_eq!(Amount::at_once(-480.0), 240.0);
    /// ```
    pub fn at_once(off_cents: f64) -> f64 {
        match Amount::of(off_cents) {
            Amount::Half => 0.5 * off_cents.abs(),
            _ => off_cents.abs(),
        }
    }
}

/// Which way a string so many cents off has to go; there is no way for one that is on its target.
pub(crate) fn way(off_cents: f64) -> Direction {
    if off_cents < 0.0 {
        Direction::Up
    } else if off_cents > 0.0 {
        Direction::Down
    } else {
        Direction::There
    }
}
