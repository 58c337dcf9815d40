//! What can happen in a round.

use super::{RoundError, within};

/// Something that happens at `at_s` seconds of the room's time; plucks and pins go by steps of 32 samples.
#[derive(Clone, Debug, PartialEq)]
pub struct Event {
    /// When it begins, in seconds.
    pub at_s: f64,
    /// What it is.
    pub what: What,
}

/// What can happen in a round. Levels are in dB against an ordinary pluck (RMS 0.03 over its first half second).
#[derive(Clone, Debug, PartialEq)]
pub enum What {
    /// A string is plucked.
    Pluck {
        /// Its name.
        string: String,
        /// How loud.
        level_db: f64,
    },
    /// A ringing string is damped by a finger.
    Damp {
        /// Its name.
        string: String,
    },
    /// A pin is turned: the pitch moves evenly in cents from where it stands, ringing or not.
    Turn {
        /// The string's name.
        string: String,
        /// Where the pin stops, in cents off the target.
        to_cents: f64,
        /// How long it takes.
        seconds: f64,
    },
    /// A steady prompt.
    Tone {
        /// Frequency in Hz.
        hz: f64,
        /// Length in seconds.
        seconds: f64,
        /// How loud.
        level_db: f64,
    },
    /// A prompt that sweeps evenly in Hz.
    Chirp {
        /// First frequency in Hz.
        from_hz: f64,
        /// Last frequency in Hz.
        to_hz: f64,
        /// Length in seconds.
        seconds: f64,
        /// How loud.
        level_db: f64,
    },
    /// Syllables of speech-like sound.
    Speech {
        /// Length in seconds.
        seconds: f64,
        /// How loud.
        level_db: f64,
    },
    /// Sound that never arrives: these seconds are cut out and what follows comes early.
    Missing {
        /// How long.
        seconds: f64,
    },
    /// Sound that arrives as zeros.
    Muted {
        /// How long.
        seconds: f64,
    },
}

impl Event {
    /// An ordinary pluck.
    #[must_use]
    pub fn pluck(at_s: f64, string: &str) -> Self {
        Self {
            at_s,
            what: What::Pluck {
                string: string.to_owned(),
                level_db: 0.0,
            },
        }
    }

    /// A pin turned until the string stands `to_cents` off.
    #[must_use]
    pub fn turn(at_s: f64, string: &str, to_cents: f64, seconds: f64) -> Self {
        Self {
            at_s,
            what: What::Turn {
                string: string.to_owned(),
                to_cents,
                seconds,
            },
        }
    }

    /// A string damped.
    #[must_use]
    pub fn damp(at_s: f64, string: &str) -> Self {
        Self {
            at_s,
            what: What::Damp {
                string: string.to_owned(),
            },
        }
    }

    /// Seconds of sound that never arrive.
    #[must_use]
    pub fn missing(at_s: f64, seconds: f64) -> Self {
        Self {
            at_s,
            what: What::Missing { seconds },
        }
    }

    /// Refuses figures out of their ranges in a round of `seconds` at `rate_hz`.
    pub(super) fn check(&self, seconds: f64, rate_hz: u32) -> Result<(), RoundError> {
        within("an event's time", self.at_s, 0.0, seconds)?;
        let lasting = |seconds: f64| within("an event's length in seconds", seconds, 0.0, 600.0);
        let loud = |db: f64| within("a level in dB", db, -120.0, 40.0);
        let pitched = |hz: f64| {
            within(
                "a prompt's frequency in Hz",
                hz,
                1.0,
                f64::from(rate_hz) / 2.0,
            )
        };
        match self.what {
            What::Pluck { level_db, .. } => loud(level_db),
            What::Damp { .. } => Ok(()),
            What::Turn {
                to_cents, seconds, ..
            } => within("cents off", to_cents, -1_200.0, 1_200.0).and_then(|()| lasting(seconds)),
            What::Tone {
                hz,
                seconds,
                level_db,
            } => pitched(hz)
                .and_then(|()| lasting(seconds))
                .and_then(|()| loud(level_db)),
            What::Chirp {
                from_hz,
                to_hz,
                seconds,
                level_db,
            } => {
                pitched(from_hz)?;
                pitched(to_hz)?;
                lasting(seconds).and_then(|()| loud(level_db))
            }
            What::Speech { seconds, level_db } => lasting(seconds).and_then(|()| loud(level_db)),
            What::Missing { seconds } | What::Muted { seconds } => lasting(seconds),
        }
    }
}
