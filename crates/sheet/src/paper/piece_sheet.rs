//! What is printed of one piece, however it was found: from a plan, or from what a player wrote down.

use harp::{OpenTuning, Setting, StringName};
use pedals::{Because, LeverReason, Reason, Remedy};
use pitch::{Alteration, Letter, ReferencePitch, SpelledPitch};

use crate::BeforePiece;

/// One piece.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PieceSheet {
    /// Its title.
    pub title: String,
    /// Its composer, or nothing.
    pub composer: String,
    /// The harp in her own words, or nothing.
    pub harp: String,
    /// The pitch of A4.
    pub reference: ReferencePitch,
    /// Its movements, at least one.
    pub movements: Vec<MovementSheet>,
    /// What else must be known.
    pub remarks: Vec<Remark>,
    /// What is done on stage before it.
    pub before: BeforePiece,
}

/// One movement, or a piece that has only one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct MovementSheet {
    /// Its name, or nothing.
    pub name: String,
    /// Strings without discs that are tuned for it, in the first movement all that matter, then those that change.
    pub by_key: Vec<KeyedString>,
    /// Where the pedals stand when it begins; nothing on a lever harp.
    pub opening: Setting,
    /// How the levers stand when it begins; on a lever harp only.
    pub levers: Option<LeverOpening>,
    /// Rehearsal marks and how the pedals stand there.
    pub landmarks: Vec<Landmark>,
    /// The bars in which something changes.
    pub bars: Vec<BarChanges>,
}

/// How a lever harp stands when a movement begins.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeverOpening {
    /// The open tuning.
    pub open: OpenTuning,
    /// Levers that are on, from the bass; all others are off.
    pub on: Vec<StringName>,
}

/// A written bar: its place and its printed number.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct PrintedBar {
    /// Its place among all bars, ascending: bars stand in this order, and two in a row follow each other.
    pub order: u32,
    /// The number printed at it.
    pub label: String,
}

/// A string without discs and what it is tuned to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KeyedString {
    /// The string.
    pub string: StringName,
    /// What it sounds from then on.
    pub pitch: SpelledPitch,
    /// Where it is retuned within the movement; before it where this is `None`.
    pub in_rest: Option<PrintedBar>,
}

/// A rehearsal mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Landmark {
    /// Where it stands.
    pub bar: PrintedBar,
    /// What is printed there.
    pub mark: String,
    /// The times of playing at which the pedals stand so; every time where it is empty.
    pub times: Vec<u32>,
    /// Where the pedals stand for the first notes there.
    pub setting: Setting,
}

/// All changes of one bar.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BarChanges {
    /// The bar.
    pub bar: PrintedBar,
    /// From left to right.
    pub beats: Vec<BeatChanges>,
}

/// The changes at one beat.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct BeatChanges {
    /// The beat as it is counted, such as `2½`, or nothing.
    pub beat: String,
    /// The right foot's; on a lever harp the right hand's.
    pub right: Vec<Pencilled>,
    /// The left foot's, or hand's.
    pub left: Vec<Pencilled>,
}

/// One change as it is pencilled.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pencilled {
    /// The pedal, or the letter of the lever's string.
    pub letter: Letter,
    /// To where.
    pub to: Alteration,
    /// The string whose lever it is; `None` for a pedal.
    pub string: Option<StringName>,
    /// The times of playing at which alone it holds; every time where it is empty.
    pub only: Vec<u32>,
}

/// Something to be known at a place, or everywhere.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Remark {
    /// The bar, if it has one.
    pub bar: Option<PrintedBar>,
    /// The beat, or nothing.
    pub beat: String,
    /// What.
    pub what: RemarkKind,
}

/// The kinds of remarks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum RemarkKind {
    /// A note is played on another string than the written one.
    OtherString {
        /// What she reads.
        written: SpelledPitch,
        /// What she plays.
        played: SpelledPitch,
    },
    /// A note cannot be had.
    Lost {
        /// What is written.
        pitch: SpelledPitch,
        /// Why not.
        reason: Reason,
        /// What could be done.
        remedies: Vec<Remedy>,
    },
    /// A mark of the part is not followed.
    Otherwise {
        /// The pedal.
        letter: Letter,
        /// As marked.
        marked: Alteration,
        /// As it stands.
        planned: Alteration,
        /// Why.
        because: Because,
    },
    /// A note cannot be had on a lever harp.
    LostToLevers {
        /// What is written.
        pitch: SpelledPitch,
        /// Why not.
        reason: LeverReason,
        /// What could be done.
        remedies: Vec<Remedy>,
    },
    /// Strings that are heard alone.
    Exposed(Vec<StringName>),
    /// Words, as they are.
    Caution(String),
}
