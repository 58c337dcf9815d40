//! What happens in a round: what was heard, what moves, and what the player does.

use harp::StringName;
use pitch::{Letter, SpelledPitch};

use crate::Heard;
use crate::round::take_the_a::Estimate;

/// One thing that happens. A round run again from the same events gives the same answers.
#[derive(Clone, Debug, PartialEq)]
pub enum Event {
    /// Something came out of the ear.
    Heard(Heard),
    /// A ringing string's pitch while its pin is turned.
    Moving(Moving),
    /// The player does something.
    Act {
        /// Seconds from the start of the sound.
        at_s: f64,
        /// What.
        act: Act,
    },
    /// From now on strings are asked for in this order, as somebody knows it who knows more than the round; those that it
    /// leaves out are not asked for. Before `Begin` and in a round that runs.
    Order {
        /// Seconds from the start of the sound.
        at_s: f64,
        /// The strings.
        strings: Vec<StringName>,
    },
    /// Somebody held a note, to take the A from.
    NoteHeld {
        /// Seconds from the start of the sound.
        at_s: f64,
        /// The note that was named.
        note: SpelledPitch,
        /// Its pitch over three seconds or more.
        estimates: Vec<Estimate>,
    },
}

/// The pitch of a ringing string, followed live. Never kept as a reading.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moving {
    /// Seconds from the start of the sound.
    pub at_s: f64,
    /// The string that is followed.
    pub string: StringName,
    /// Its sounding pitch now, Hz.
    pub hz: f64,
    /// Half of its 95 % interval, cents.
    pub u95_cents: f64,
}

/// What the player can do; none of it is needed once the round has begun.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Act {
    /// Begin.
    Begin,
    /// What is plucked from now on is this string, however far off it is.
    ThisOne(StringName),
    /// It may be any string again.
    LetGo,
    /// Leave a string out.
    Skip(StringName),
    /// A string broke, or a string that was broken is fitted now.
    Broke(StringName, Then),
    /// Leave the present string as it is for now.
    Next,
    /// Hear a string again.
    Again(StringName),
    /// It was called in tune and is not.
    NotInTune(StringName),
    /// Her ear, against the octave, says that it is in tune.
    InTuneByEar(StringName),
    /// Stop listening.
    Pause,
    /// Go on.
    Resume,
    /// A string without discs is to stand at this pitch.
    SetTo(StringName, SpelledPitch),
    /// A piece is over.
    BetweenPieces,
    /// She moved the string herself, for a reason that need not be told.
    MovedOnPurpose(StringName),
    /// The pedal or the levers of a letter do stand where she said.
    AsSaid(Letter),
    /// Tune to this A4, in Hz, 380 to 480.
    UseA {
        /// A4 in Hz.
        a4_hz: f64,
        /// Whether a technician was asked, where that is needed.
        technician_asked: bool,
    },
    /// The round is over.
    Finish,
}

/// What is done about a string that broke.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Then {
    /// Play without it.
    PlayWithout,
    /// A new one is fitted now.
    FittedNow,
}

impl Event {
    /// Seconds from the start of the sound; of a pluck its onset.
    pub fn at_s(&self) -> f64 {
        match self {
            Event::Heard(Heard::Reading(r)) => r.at_s,
            Event::Heard(Heard::Refused(r)) => r.at_s,
            Event::Heard(Heard::Warning(w)) => w.at_s,
            Event::Moving(m) => m.at_s,
            Event::Act { at_s, .. } | Event::Order { at_s, .. } | Event::NoteHeld { at_s, .. } => {
                *at_s
            }
        }
    }

    /// When it was known: of a pluck the end of its listening.
    pub(crate) fn known_s(&self) -> f64 {
        match self {
            Event::Heard(Heard::Reading(r)) => r.at_s + r.listened_s.max(0.0),
            other => other.at_s(),
        }
    }
}
