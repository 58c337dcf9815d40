//! What may be wrong, with the figures that make one think so. A question comes before any 'down'; a stop comes at once.

use harp::StringName;
use pitch::{Alteration, Letter};

/// Something that may be wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum Warning {
    /// Question: strings of one letter, and none of them where it should be, are a semitone or a tone high.
    PedalUp {
        /// The letter.
        letter: Letter,
        /// 1 or 2.
        semitones: u32,
        /// Where it should stand: flat is up.
        position: Alteration,
        /// The strings heard so; one or more.
        strings: Vec<StringName>,
    },
    /// Question: a string of a lever harp is a semitone high.
    LeverOff {
        /// The string.
        string: StringName,
    },
    /// Question: a string was found further above its target than strings slip.
    FoundHigh {
        /// The string.
        string: StringName,
        /// How far, cents.
        off_cents: f64,
    },
    /// Question: a string was told to move and did not, three plucks in a row.
    KeyElsewhere {
        /// The string.
        string: StringName,
        /// Plucks without change.
        plucks: u32,
    },
    /// Question: a wire was asked for and its octave was heard.
    OctaveHigh {
        /// The wire that was asked for.
        expected: StringName,
        /// The string that it was heard as.
        heard_as: StringName,
    },
    /// Question: all strings are off by what lies between two reference pitches.
    Reference {
        /// How far all are off, cents.
        off_cents: f64,
        /// The A4 that would explain it, Hz.
        a4_hz: f64,
        /// How many strings say so.
        strings: usize,
    },
    /// Stop: another string's pitch moves than the one whose pin should be turned.
    AnotherMoves {
        /// The string to be turned.
        expected: StringName,
        /// The string that moves.
        moving: StringName,
        /// By how much it has moved, cents.
        by_cents: f64,
    },
    /// Stop: the string rises beyond what it is known to bear.
    OverPull {
        /// The string.
        string: StringName,
        /// How far it is above its target, cents.
        off_cents: f64,
        /// The limit that it has passed.
        limit: Limit,
    },
}

/// What a rising string has passed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Limit {
    /// So many cents above the target.
    AboveTarget(f64),
    /// The highest pitch known of it, Hz.
    HighestKnown(f64),
}

impl Warning {
    /// Whether the hand is to stop at once; everything else is a question.
    pub fn is_stop(&self) -> bool {
        matches!(
            self,
            Warning::AnotherMoves { .. } | Warning::OverPull { .. }
        )
    }

    /// The word used in JSON.
    pub fn as_str(&self) -> &'static str {
        match self {
            Warning::PedalUp { .. } => "is the pedal up",
            Warning::LeverOff { .. } => "is the lever off",
            Warning::FoundHigh { .. } => "found high",
            Warning::KeyElsewhere { .. } => "is the key on another pin",
            Warning::OctaveHigh { .. } => "an octave high",
            Warning::Reference { .. } => "is the reference pitch right",
            Warning::AnotherMoves { .. } => "another string moves",
            Warning::OverPull { .. } => "too far up",
        }
    }
}

/// A warning and when it was given.
#[derive(Clone, Debug, PartialEq)]
pub struct Warned {
    /// Seconds from the start of the sound.
    pub at_s: f64,
    /// What.
    pub warning: Warning,
}
