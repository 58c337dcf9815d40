//! Made-up players: who plucks and turns what, and when. Each is a script of our own invention, made from a seed; nobody was
//! watched or recorded for it, and its times and amounts are guesses, not measurements.
//!
//! A player knows nothing of any listener: the script runs on as it was written, whatever is heard of it. All take the harp as
//! it should stand, the strings in the order in which they are visited, and a seed; equal arguments give equal scripts. The
//! room is [`Room::QUIET`](crate::Room::QUIET) until another is put into [`Script::round`].
//!
//! ```
//! use harp::{Harp, Setup};
//! use pluck::player::whole_harp;
//! let harp = Harp::named("pedal47")?.standing(&Setup::open(pitch::ReferencePitch::A440))?;
//! let script = whole_harp(&harp, &["F4", "E4", "D4"], 1)?;
//! let first = &script.visits[0];
//! let left = script.round.off_cents_at("F4", first.until_s);
//! assert_eq!((first.string.as_str(), left), ("F4", Some(first.left_cents)));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod beginner;
mod checked;
mod hand;
mod lever_harp;
mod moved_to;
mod new_string;
mod professional;
mod whole_harp;

pub use beginner::{Mishaps, beginner};
pub use checked::checked;
pub use lever_harp::lever_harp;
pub use moved_to::moved_to;
pub use new_string::new_string;
pub use professional::professional;
pub use whole_harp::whole_harp;

use pitch::Letter;

use crate::Round;

/// What a player does, and what is meant by it.
#[derive(Clone, Debug, PartialEq)]
pub struct Script {
    /// The harp and the events, in the order of time.
    pub round: Round,
    /// The strings she means to tune, one visit after the other; they do not overlap.
    pub visits: Vec<Visit>,
    /// What goes otherwise than a tuner would wish, in the order of time.
    pub asides: Vec<Aside>,
}

/// A stretch of time in which one string is meant.
#[derive(Clone, Debug, PartialEq)]
pub struct Visit {
    /// The string.
    pub string: String,
    /// When she comes to it (its first pluck, unless an [`Aside`] says otherwise), in seconds.
    pub from_s: f64,
    /// When she goes on, in seconds.
    pub until_s: f64,
    /// Where she leaves it, in cents off the target of the round; positive is high.
    pub left_cents: f64,
    /// Whether that is as near as she wants it.
    pub settled: bool,
}

/// Something that goes otherwise. Times are in seconds of the room's time, as the events count them.
#[derive(Clone, Debug, PartialEq)]
pub enum Aside {
    /// A pedal is down the whole time: all strings of the letter stand a semitone high. Their targets in the round are raised,
    /// and she tunes them there.
    PedalDown {
        /// Its letter.
        letter: Letter,
    },
    /// A string an octave away is plucked, once.
    WrongOctave {
        /// When.
        at_s: f64,
        /// The string that is meant.
        meant: String,
        /// The string that is plucked.
        plucked: String,
    },
    /// The key sits on the wrong pin: one string is plucked, another one turned.
    OtherPin {
        /// When the string that will be turned is played once more; the plucks of the other one follow.
        from_s: f64,
        /// The end of the last turn.
        until_s: f64,
        /// The string that is plucked, and does not move.
        plucked: String,
        /// The string that moves.
        turned: String,
    },
    /// A pin is turned too far.
    Passed {
        /// When the turn ends.
        at_s: f64,
        /// The string.
        string: String,
        /// Where it stands then, in cents off the target.
        cents: f64,
    },
    /// Nobody plays; people talk.
    Interruption {
        /// When it begins.
        at_s: f64,
        /// How long it lasts.
        seconds: f64,
    },
    /// A lever that was on is put off: the string drops by a semitone within a fiftieth of a second.
    LeverOff {
        /// When it begins to drop.
        at_s: f64,
        /// The string.
        string: String,
    },
    /// A string sinks of itself.
    Sinking {
        /// The string.
        string: String,
        /// From when.
        from_s: f64,
        /// Until when.
        until_s: f64,
        /// By how many cents; positive.
        cents: f64,
    },
}

impl Script {
    /// The string that is meant at `at_s` seconds of the room's time; `None` between visits and after the last.
    #[must_use]
    pub fn meant_at(&self, at_s: f64) -> Option<&str> {
        let here = |v: &&Visit| (v.from_s..v.until_s).contains(&at_s);
        self.visits.iter().find(here).map(|v| v.string.as_str())
    }

    /// Where a string stands at `at_s` seconds of the room's time against the harp the script was made for, in cents; positive
    /// is high. As [`Round::off_cents_at`], but a string raised by a pedal is a semitone higher here. `None` where no string
    /// has this name.
    #[must_use]
    pub fn harp_cents_at(&self, name: &str, at_s: f64) -> Option<f64> {
        let raised = self.asides.iter().any(|aside| match aside {
            Aside::PedalDown { letter } => name.starts_with(letter.as_char()),
            _ => false,
        });
        let cents = self.round.off_cents_at(name, at_s)?;
        Some(if raised { cents + 100.0 } else { cents })
    }
}
