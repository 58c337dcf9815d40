//! A whole round as data: which strings stand how far off, and what happens when.
//!
//! A round is rendered by [`Round::perform`] in blocks, so that an hour needs no more memory than a minute. All strings that
//! still sound are truly added up; a string plucked again is first damped by the finger. All of it is invented.

mod event;
mod performance;
mod pins;
mod plan;
mod plucked;
mod prompt;
mod strike;
mod unending;
mod voice;

pub use event::{Event, What};
pub use performance::Performance;
pub use plucked::Plucked;

use plan::Plan;

/// A harp, what is done to it, and how it is heard.
///
/// ```
/// use pluck::{Event, Round, RoundString};
///
/// let strings = vec![RoundString::new("A4", 440.0, -12.0), RoundString::new("B4", 493.88, 3.0)];
/// let events = vec![Event::pluck(0.5, "A4"), Event::turn(1.0, "A4", -2.0, 1.5), Event::pluck(3.0, "A4")];
/// let mut performance = Round::new(strings, events, 1).perform()?;
/// assert_eq!(performance.truth().len(), 2);
/// assert!((performance.truth()[1].off_cents() + 2.0).abs() < 1e-9);
/// let block = performance.next().unwrap_or_default();
/// assert!(block.iter().all(|x| x.abs() <= 1.0));
/// # Ok::<(), pluck::RoundError>(())
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Round {
    /// The strings, in any order; names must differ.
    pub strings: Vec<RoundString>,
    /// What happens; any order, each at its own time.
    pub events: Vec<Event>,
    /// Length in seconds.
    pub seconds: f64,
    /// Samples per second, 8000 to 192 000.
    pub rate_hz: u32,
    /// The seed of every draw.
    pub seed: u64,
    /// The room and the microphone.
    pub room: Room,
}

/// One string of the round.
#[derive(Clone, Debug, PartialEq)]
pub struct RoundString {
    /// Its name, as events call it.
    pub name: String,
    /// What it should sound, in Hz (20 to 4500).
    pub target_hz: f64,
    /// How far its first partial stands off the target before anyone turns its pin, in cents (±1200); positive is high.
    pub off_cents: f64,
    /// Falseness: standard deviation in cents (0 to 20) by which each partial misses the stiff-string law.
    pub false_cents: f64,
}

/// The room and the microphone.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Pink noise between 20 Hz and 20 kHz, in dB under an ordinary pluck; infinite for silence.
    pub noise_under_db: f64,
    /// Where the microphone has lost 3 dB of the bass (third order), in Hz; 0 loses nothing.
    pub bass_corner_hz: f64,
    /// Octaves, fifths and twelfths that ring with a pluck, in dB under it; infinite for none.
    pub sympathy_under_db: f64,
    /// Three to five sustained instruments with vibrato, changing about every two seconds, in dB under an ordinary pluck;
    /// infinite for an empty pit.
    pub pit_under_db: f64,
    /// Factor before the converter, which clips at ±1.
    pub gain: f64,
}

/// A round that cannot be played.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RoundError {
    /// An event names a string that the harp has not.
    #[error("no string is called {name:?}")]
    UnknownString {
        /// What was asked for.
        name: String,
    },
    /// Two strings have one name.
    #[error("two strings are called {name:?}")]
    SameName {
        /// The name.
        name: String,
    },
    /// A figure out of its range.
    #[error("{what} cannot be {value}")]
    Value {
        /// Which figure.
        what: &'static str,
        /// Its value.
        value: f64,
    },
}

impl Room {
    /// A quiet room with a small microphone: noise at −35 dB, corner at 100 Hz, sympathetic strings at −30 dB.
    pub const QUIET: Self = Self {
        noise_under_db: 35.0,
        bass_corner_hz: 100.0,
        sympathy_under_db: 30.0,
        pit_under_db: f64::INFINITY,
        gain: 1.0,
    };

    /// The room of [`crate::Set::Real20`]: noise at −20 dB, corner at 100 Hz, sympathetic strings at −30 dB.
    ///
    /// A set measures its noise against each string; a room measures it against an ordinary pluck, so that a soft pluck has
    /// more of it. Finger noise, glide and beating belong to every pluck of a round; a set's previous string at −30 dB is here
    /// whatever still rings, as loud as it is.
    pub const REAL20: Self = Self {
        noise_under_db: 20.0,
        ..Self::QUIET
    };

    /// The room of [`crate::Set::Pit10`]: as [`Room::REAL20`], with the pit at −10 dB.
    pub const PIT10: Self = Self {
        pit_under_db: 10.0,
        ..Self::REAL20
    };
}

impl RoundString {
    /// A true string `off_cents` off its target.
    #[must_use]
    pub fn new(name: &str, target_hz: f64, off_cents: f64) -> Self {
        Self {
            name: name.to_owned(),
            target_hz,
            off_cents,
            false_cents: 0.0,
        }
    }

    /// The strings of a harp as they should stand now, all in tune.
    #[must_use]
    pub fn of_harp(standing: &[harp::Standing]) -> Vec<Self> {
        standing
            .iter()
            .map(|s| Self::new(&s.string.to_string(), s.target_hz, 0.0))
            .collect()
    }
}

impl Round {
    /// A round at 48 kHz in a quiet room that ends three seconds after its last event has begun.
    #[must_use]
    pub fn new(strings: Vec<RoundString>, events: Vec<Event>, seed: u64) -> Self {
        let last = events.iter().map(|e| e.at_s).fold(0.0, f64::max);
        Self {
            strings,
            events,
            seconds: last + 3.0,
            rate_hz: 48_000,
            seed,
            room: Room::QUIET,
        }
    }

    /// Starts the performance: an iterator of blocks of samples, with the truth of every pluck known at once.
    ///
    /// # Errors
    /// A string that is not there, or a figure out of its range.
    pub fn perform(&self) -> Result<Performance, RoundError> {
        self.check()?;
        Ok(Performance::new(Plan::of(self)?))
    }

    /// All samples at once, for short rounds.
    ///
    /// # Errors
    /// As [`Round::perform`].
    pub fn samples(&self) -> Result<Vec<f32>, RoundError> {
        Ok(self.perform()?.flatten().collect())
    }

    fn check(&self) -> Result<(), RoundError> {
        let room = &self.room;
        let rate_hz = f64::from(self.rate_hz);
        for (what, value, low, high) in [
            ("the sampling rate", rate_hz, 8_000.0, 192_000.0),
            ("the length in seconds", self.seconds, 0.0, 86_400.0),
            ("the gain", room.gain, 0.0, 1e6),
            ("the noise in dB", room.noise_under_db, -60.0, f64::INFINITY),
            ("the pit in dB", room.pit_under_db, -60.0, f64::INFINITY),
            (
                "the sympathetic strings in dB",
                room.sympathy_under_db,
                0.0,
                f64::INFINITY,
            ),
            (
                "the microphone's corner in Hz",
                room.bass_corner_hz,
                0.0,
                20_000.0,
            ),
        ] {
            within(what, value, low, high)?;
        }
        for (i, string) in self.strings.iter().enumerate() {
            within("a target in Hz", string.target_hz, 20.0, 4_500.0)?;
            within("cents off", string.off_cents, -1_200.0, 1_200.0)?;
            within(
                "a string's falseness in cents",
                string.false_cents,
                0.0,
                20.0,
            )?;
            if self
                .strings
                .iter()
                .take(i)
                .any(|other| other.name == string.name)
            {
                return Err(RoundError::SameName {
                    name: string.name.clone(),
                });
            }
        }
        self.events
            .iter()
            .try_for_each(|event| event.check(self.seconds, self.rate_hz))
    }

    /// The number of the string with this name.
    fn index_of(&self, name: &str) -> Result<usize, RoundError> {
        let found = self.strings.iter().position(|s| s.name == name);
        found.ok_or_else(|| RoundError::UnknownString {
            name: name.to_owned(),
        })
    }
}

fn within(what: &'static str, value: f64, low: f64, high: f64) -> Result<(), RoundError> {
    if (low..=high).contains(&value) {
        Ok(())
    } else {
        Err(RoundError::Value { what, value })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(change: impl FnOnce(&mut Round), expected: &RoundError) {
        let mut round = Round::new(vec![RoundString::new("A4", 440.0, 0.0)], vec![], 1);
        change(&mut round);
        assert_eq!(round.perform().err().as_ref(), Some(expected));
    }

    #[test]
    fn a_round_that_cannot_be_played_says_why() {
        let unknown = RoundError::UnknownString {
            name: "B4".to_owned(),
        };
        check(|r| r.events.push(Event::pluck(0.0, "B4")), &unknown);
        check(
            |r| r.rate_hz = 10,
            &RoundError::Value {
                what: "the sampling rate",
                value: 10.0,
            },
        );
        check(
            |r| r.events.push(Event::pluck(9.0, "A4")),
            &RoundError::Value {
                what: "an event's time",
                value: 9.0,
            },
        );
        let same = RoundError::SameName {
            name: "A4".to_owned(),
        };
        check(
            |r| r.strings.push(RoundString::new("A4", 441.0, 0.0)),
            &same,
        );
    }
}
