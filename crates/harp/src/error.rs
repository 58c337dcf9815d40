//! What can be asked of a harp that it does not have.

use pitch::{Alteration, SpelledPitch};

use crate::discless::NEAR_SEMITONES;
use crate::{HarpKind, OpenTuning, Position, StringName};

/// Something asked of a harp that it cannot do; each holds what was asked.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum HarpError {
    /// No built-in harp of that name.
    #[error("no harp is called '{name}'; known are {}", known_names())]
    UnknownHarp {
        /// What was asked.
        name: String,
    },
    /// The lowest string lies above the highest.
    #[error("the lowest string, {lowest}, lies above the highest, {highest}")]
    UpsideDown {
        /// Lowest string asked.
        lowest: StringName,
        /// Highest string asked.
        highest: StringName,
    },
    /// A semitone asked of a harp.
    #[error("{string} is no string of a harp: a harp has one string for each letter")]
    Semitone {
        /// The string asked.
        string: StringName,
    },
    /// The same string twice.
    #[error("string {string} ({}) is there twice", string.harp_number())]
    Duplicate {
        /// The string.
        string: StringName,
    },
    /// A string that this harp does not have.
    #[error("this harp has no string {string} ({})", string.harp_number())]
    NoSuchString {
        /// The string asked.
        string: StringName,
    },
    /// An open tuning that this kind of harp does not have.
    #[error("a {kind} cannot stand open in {open}: {}", open_reason(*kind))]
    OpenTuning {
        /// Kind of harp.
        kind: HarpKind,
        /// The tuning asked.
        open: OpenTuning,
    },
    /// A position of an instrument without pedals or levers.
    #[error("position '{position}' asked, but this instrument has neither pedals nor levers")]
    NothingMoves {
        /// The position asked.
        position: Position,
    },
    /// A setting of an instrument without pedals or levers.
    #[error("a setting was given, but this instrument has neither pedals nor levers")]
    NoSetting,
    /// A lever asked on a string that has none.
    #[error("string {string} ({}) has no lever", string.harp_number())]
    NoLever {
        /// The string.
        string: StringName,
    },
    /// An alteration that a lever cannot give.
    #[error(
        "{string} ({}) cannot stand at {wanted}: it is {open} open, and its lever raises it one \
         semitone", string.harp_number()
    )]
    OutOfLeverReach {
        /// The string.
        string: StringName,
        /// The alteration asked.
        wanted: Alteration,
        /// Its open alteration.
        open: Alteration,
    },
    /// A pitch given for a string that has discs or a lever.
    #[error(
        "{string} ({}) has discs or a lever and stands where they say; only a string without \
         them can be given a pitch of its own ({wanted} was asked)", string.harp_number()
    )]
    NotDiscless {
        /// The string.
        string: StringName,
        /// The pitch asked.
        wanted: SpelledPitch,
    },
    /// A pitch too far from the string's own.
    #[error(
        "{string} ({}) cannot be tuned to {wanted}, {semitones} semitones from its own pitch; \
         near is within {NEAR_SEMITONES} semitones", string.harp_number()
    )]
    TooFar {
        /// The string.
        string: StringName,
        /// The pitch asked.
        wanted: SpelledPitch,
        /// How far it is, in semitones above.
        semitones: i32,
    },
}

fn known_names() -> String {
    crate::BUILT_IN.map(|built_in| built_in.name).join(", ")
}

fn open_reason(kind: HarpKind) -> &'static str {
    match kind {
        HarpKind::Pedal => "its pedals up are always C flat major",
        HarpKind::Lever => "its open tunings are Eb, C, F and Ab major",
        HarpKind::Free => "it has no open tuning",
    }
}
