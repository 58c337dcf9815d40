//! After how long strings are renewed: defaults with what they are worth, hers to change.

use harp::HarpString;
use pitch::harp_octave;

/// What a figure is worth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// Several guides say so.
    Guides,
    /// Common practice, no source.
    CommonPractice,
    /// One author's guess.
    OneGuess,
    /// From memory, unconfirmed.
    FromMemory,
    /// Our proposal; nothing is published.
    Proposal,
    /// She said so.
    Hers,
}

/// Where a string belongs, for its renewal.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Register {
    /// Octaves 0, 1 and 2.
    Top,
    /// Below, but no wire.
    Middle,
    /// The wires.
    Wire,
}

impl Register {
    /// The register of a string.
    ///
    /// ```
    /// use keep::Register;
    /// let harp = harp::Harp::named("pedal47")?;
    /// let of = |name: &str| Register::of(harp.string(name.parse().unwrap()).unwrap());
    /// assert_eq!([of("2F"), of("3E"), of("5G")], [Register::Top, Register::Middle, Register::Wire]);
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn of(string: &HarpString) -> Register {
        if string.wire {
            Register::Wire
        } else if harp_octave(string.name.letter, string.name.octave) <= 2 {
            Register::Top
        } else {
            Register::Middle
        }
    }
}

/// When strings of a register are renewed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Interval {
    /// From this age on it may be time, years.
    pub from_years: f64,
    /// At this age it is, years.
    pub to_years: f64,
    /// What that is worth.
    pub mark: Mark,
}

/// How a harp is played.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Use {
    /// Every day, for a living.
    Professional,
    /// Less.
    Student,
}

/// An interval for each register.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Intervals {
    /// Octaves 0 to 2.
    pub top: Interval,
    /// Gut below, which goes by wear rather than by years.
    pub middle: Interval,
    /// Wires.
    pub wire: Interval,
}

impl Intervals {
    /// The defaults: octaves 0 to 2 yearly for professionals and every two years for students, wires after 2 to 3 years and
    /// after 5 at the most where they are played lightly (several guides); gut below after 2 to 4 years, by wear (from memory).
    pub fn of(used: Use) -> Intervals {
        let guides = |from_years, to_years| Interval {
            from_years,
            to_years,
            mark: Mark::Guides,
        };
        let middle = Interval {
            mark: Mark::FromMemory,
            ..guides(2.0, 4.0)
        };
        match used {
            Use::Professional => Intervals {
                top: guides(1.0, 1.0),
                middle,
                wire: guides(2.0, 3.0),
            },
            Use::Student => Intervals {
                top: guides(2.0, 2.0),
                middle,
                wire: guides(3.0, 5.0),
            },
        }
    }

    /// The interval of a register.
    pub fn of_register(&self, register: Register) -> Interval {
        match register {
            Register::Top => self.top,
            Register::Middle => self.middle,
            Register::Wire => self.wire,
        }
    }
}
