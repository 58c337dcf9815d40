//! How far off a string may be and still be called in tune.

use harp::StringName;
use pitch::Letter;

/// A reading says in tune only where its interval is at most so many tolerances wide.
const SURE_ENOUGH: f64 = 1.5;

/// The player's tolerance, in cents either way. No figure for any harp is published: ±3 and ±5 are our proposal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// From C3 to C7.
    pub middle_cents: f64,
    /// Below and above.
    pub outer_cents: f64,
}

impl Default for Tolerance {
    fn default() -> Self {
        Tolerance {
            middle_cents: 3.0,
            outer_cents: 5.0,
        }
    }
}

impl Tolerance {
    /// The same tolerance everywhere, in cents, positive.
    pub fn everywhere(cents: f64) -> Self {
        Tolerance {
            middle_cents: cents,
            outer_cents: cents,
        }
    }

    /// The tolerance of a string, in cents either way.
    ///
    /// ```
    /// use tuning::round::Tolerance;
    /// assert_eq!(Tolerance::default().of("C7".parse()?), 3.0);
    /// assert_eq!(Tolerance::default().of("D7".parse()?), 5.0);
    /// # Ok::<(), harp::StringNameError>(())
    /// ```
    pub fn of(self, string: StringName) -> f64 {
        let middle = match string.octave {
            3..=6 => true,
            7 => string.letter == Letter::C && !string.sharp,
            _ => false,
        };
        if middle {
            self.middle_cents
        } else {
            self.outer_cents
        }
    }
}

/// What one pluck says, in cents, against a tolerance.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Verdict {
    /// Inside, and surely enough.
    InTune,
    /// Inside or not: the interval is too wide to say.
    Near,
    /// Outside.
    Off,
}

impl Verdict {
    /// Of a string so many cents off, give or take half of its 95 % interval, against its own tolerance.
    ///
    /// ```
    /// use tuning::round::Verdict;
    /// assert_eq!(Verdict::of(-2.0, 1.0, 3.0), Verdict::InTune);
    /// assert_eq!(Verdict::of(-2.0, 6.0, 3.0), Verdict::Near);
    /// assert_eq!(Verdict::of(-9.0, 6.0, 3.0), Verdict::Off);
    /// ```
    pub fn of(off_cents: f64, u95_cents: f64, tolerance_cents: f64) -> Verdict {
        let inside = off_cents.abs() <= tolerance_cents;
        if inside && u95_cents <= SURE_ENOUGH * tolerance_cents {
            Verdict::InTune
        } else if inside || off_cents.abs() <= u95_cents {
            Verdict::Near
        } else {
            Verdict::Off
        }
    }
}
