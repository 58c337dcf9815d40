//! A check of the mechanism: every string read open and in each position that its discs or its lever give it.

mod of_check;

use harp::StringName;
use pitch::Alteration;
use serde::{Deserialize, Serialize};

use crate::figure::{as_figure, maybe_figure};
use crate::reading::side;
use crate::text::as_text;

/// A regulation check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Regulation {
    /// The name of the harp.
    pub harp: String,
    /// The reference pitch: A4, Hz.
    #[serde(with = "as_figure")]
    pub a4_hz: f64,
    /// The strings that were checked, in the order in which they were.
    pub strings: Vec<StringChecked>,
    /// Letters whose pedal as a whole is off, and where: not the fault of a disc.
    pub pedals: Vec<PedalFound>,
    /// What was written beside it.
    pub note: String,
}

/// One string of a check.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct StringChecked {
    /// The string.
    #[serde(with = "as_text")]
    pub string: StringName,
    /// Where it was read. The same position twice is the return test.
    pub positions: Vec<PositionRead>,
    /// How far the string comes back to another pitch by itself, half of a 95 % interval, cents.
    #[serde(with = "maybe_figure")]
    pub own_cents: Option<f64>,
    /// What was found.
    pub found: Found,
}

/// A string in one position.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PositionRead {
    /// Where it stood against its letter.
    #[serde(with = "side")]
    pub position: Alteration,
    /// How far it was from the target of that position, cents.
    #[serde(with = "as_figure")]
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    #[serde(with = "as_figure")]
    pub u95_cents: f64,
}

/// A pedal that is off for all strings of its letter.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct PedalFound {
    /// The letter.
    #[serde(with = "crate::act::letter")]
    pub letter: pitch::Letter,
    /// Where.
    #[serde(with = "side")]
    pub position: Alteration,
    /// By how much, cents.
    #[serde(with = "as_figure")]
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    #[serde(with = "as_figure")]
    pub u95_cents: f64,
}

/// What a check says of a string.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum Found {
    /// Nothing to mend.
    #[serde(rename = "right")]
    Right,
    /// A disc of this string gives the wrong step.
    #[serde(rename = "disc")]
    Disc,
    /// Its lever does.
    #[serde(rename = "lever")]
    Lever,
    /// The whole letter is off, this string with it.
    #[serde(rename = "pedal")]
    Pedal,
    /// The string itself does not come back to where it was.
    #[serde(rename = "string")]
    OwnString,
    /// Put on less than two weeks ago, shown and not judged.
    #[serde(rename = "too_new")]
    TooNew,
    /// The intervals are too wide to say.
    #[serde(rename = "not_sure")]
    NotSure,
}
