//! What a round has to say: values. `words` makes sentences of them.

use harp::StringName;
use pitch::SpelledPitch;

use super::take_the_a::{Raise, TakeError, TakenA};
use super::{Amount, Then, Warning};
use crate::{Direction, Reason, WarningKind};

/// One thing to say.
#[derive(Clone, Debug, PartialEq)]
pub enum Say {
    /// The round begins.
    Begun {
        /// How many strings are asked for.
        strings: usize,
    },
    /// Tuning in the pedals that stand, or a few strings only, is second best.
    SecondBest {
        /// Whether only a few strings are asked for.
        touch_up: bool,
        /// Whether every pedal is up and every lever off.
        open: bool,
    },
    /// What should these strings without discs sound tonight?
    AskPitch(Vec<StringName>),
    /// The string to pluck next.
    Next {
        /// The string.
        string: StringName,
        /// Why this one.
        why: Why,
    },
    /// How many are left, and at her own pace how long that takes.
    Left {
        /// Strings still asked for.
        strings: usize,
        /// Minutes; none until three strings were done.
        minutes: Option<f64>,
    },
    /// A string sounds; this is not its last word.
    Sounds {
        /// The string.
        string: StringName,
        /// Cents above its target.
        off_cents: f64,
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
    },
    /// Turn its pin.
    Turn(Turn),
    /// In tune.
    InTune {
        /// The string.
        string: StringName,
        /// Cents above its target.
        off_cents: f64,
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
    },
    /// Near: nearer this reading cannot say.
    Near {
        /// The string.
        string: StringName,
        /// Cents above its target.
        off_cents: f64,
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
        /// The string an octave above, to compare by ear.
        octave_above: Option<StringName>,
    },
    /// It was turned while it was read: pluck it once more, still.
    PluckStill(StringName),
    /// It may be any of these, so no direction.
    Which(Vec<StringName>),
    /// A pluck that could not be read.
    NotRead {
        /// The string, where at least that is known.
        string: Option<StringName>,
        /// Why.
        reason: Reason,
    },
    /// Something is wrong with the sound itself.
    Sound(WarningKind),
    /// Where a string is while its pin is turned.
    Moving {
        /// The string.
        string: StringName,
        /// Cents above its target.
        off_cents: f64,
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
        /// Which way it still has to go; there, inside the tolerance.
        way: Direction,
    },
    /// It has come inside the tolerance: leave the key, pluck it still.
    Enough(StringName),
    /// Something may be wrong.
    Warning(Warning),
    /// A new string has reached its pitch, for now.
    ReachedForNow {
        /// The string.
        string: StringName,
        /// Cents above its target.
        off_cents: f64,
        /// Half of the 95 % interval, cents.
        u95_cents: f64,
    },
    /// A new string has stayed where it was put.
    Holds(StringName),
    /// These were tuned first and others moved after them: hear them again.
    Again {
        /// The strings.
        strings: Vec<StringName>,
        /// By how many cents in all others moved after the first of them.
        moved_cents: f64,
    },
    /// Strings without discs, between pieces: does the next piece want them elsewhere?
    Offer(Vec<(StringName, SpelledPitch)>),
    /// A string without discs is to stand at this pitch.
    WillStand(StringName, SpelledPitch),
    /// A string broke; its cautions belong to it.
    Broke(StringName, Then),
    /// From now on this string, however far off.
    Pinned(StringName),
    /// Any string again.
    LetGo,
    /// Left out.
    Skipped(StringName),
    /// No longer called in tune.
    Undone(StringName),
    /// In tune by her ear.
    ByEar(StringName),
    /// Moved by herself: nothing is asked about it.
    OnPurpose(StringName),
    /// No such string in this round.
    NotHere(StringName),
    /// Not listening.
    Paused,
    /// Listening again.
    Resumed,
    /// What was held, to be confirmed; with what it asks of the harp, where its usual pitch is known, and the harp's
    /// strings that sound an A now, none with all pedals up.
    TheA {
        /// The A.
        taken: TakenA,
        /// Against the harp's usual pitch.
        raise: Option<Raise>,
        /// Strings that sound an A in the position that stands.
        strings: Vec<StringName>,
    },
    /// No A could be taken.
    NoA(TakeError),
    /// So high a target is not used before a technician was asked.
    AskTechnician(Raise),
    /// Targets are reckoned from this A4 in Hz.
    Uses(f64),
    /// Every string asked for was heard.
    AllHeard,
    /// The round is over.
    Finished,
}

/// Turn a string's pin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turn {
    /// The string.
    pub string: StringName,
    /// Up or down.
    pub way: Direction,
    /// How far, in the hand's words.
    pub amount: Amount,
    /// How far at once, cents.
    pub by_cents: f64,
    /// Cents above its target, as it was read.
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
    /// Whether it is a new string on its way.
    pub climbing: bool,
}

/// Why a string is asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Why {
    /// It is its turn.
    InOrder,
    /// It was set to a pitch or said to be the one.
    Asked,
    /// It is new: has it held?
    New,
    /// Others moved after it.
    Again,
}
