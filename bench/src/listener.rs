//! What a bench asks of a listener: one pluck in, its word on it out.

use harp::StringName;

/// The sound of one pluck and what may be known beforehand.
#[derive(Clone, Copy, Debug)]
pub struct Task<'a> {
    /// Mono samples, from 0.1 s before the pluck to the end of what may be heard.
    pub samples: &'a [f32],
    /// The sample at which the string is let go. A listener may not look at it but to choose among its own answers.
    pub onset: usize,
    /// Samples per second.
    pub rate_hz: u32,
    /// Seconds that may be heard after the onset.
    pub seconds: f64,
    /// The string, where it is told beforehand.
    pub guided: Option<StringName>,
}

/// The two things that are measured, each held against its own truth.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Measure {
    /// The sounding pitch.
    Heard,
    /// The first partial by the stiff-string fit.
    FirstPartial,
}

impl Measure {
    /// Both.
    pub const ALL: [Self; 2] = [Self::Heard, Self::FirstPartial];

    /// The field that carries it.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::Heard => "heard_hz",
            Self::FirstPartial => "f1_hz",
        }
    }
}

/// A frequency in hertz with half of its 95 % interval in cents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Measured {
    /// The frequency.
    pub hz: f64,
    /// Half of the interval.
    pub u95_cents: f64,
}

/// A reading, as far as benches judge it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Answer {
    /// The string that is named, if one is.
    pub string: Option<StringName>,
    /// The sounding pitch.
    pub heard: Measured,
    /// The first partial.
    pub first_partial: Measured,
    /// How long the listener says it listened, in seconds from its onset.
    pub listened_s: f64,
    /// How much sound after the true onset had been handed over when the answer came, in seconds.
    pub given_s: f64,
    /// Whether it was the pluck's last word.
    pub last: bool,
}

impl Answer {
    /// What was measured, by name.
    pub fn of(&self, measure: Measure) -> Measured {
        match measure {
            Measure::Heard => self.heard,
            Measure::FirstPartial => self.first_partial,
        }
    }
}

/// What a listener made of one pluck.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Outcome {
    /// Its first answer to the pluck, early or last.
    pub first: Option<Answer>,
    /// Its last answer to the pluck; none where it refused or heard nothing.
    pub last: Option<Answer>,
    /// Why it refused, where it did.
    pub refused: Option<String>,
    /// Strings named in last answers about sound before the pluck.
    pub before: Vec<StringName>,
    /// Strings named in last answers to plucks that never were, at the pluck or after it.
    pub after: Vec<StringName>,
}

/// Something that listens to a pluck.
pub trait Listener {
    /// Its word on one pluck. A listener keeps nothing from one to the next.
    fn listen(&self, task: &Task<'_>) -> Outcome;
}
