//! What was practised: strings tuned by ear, made strings told apart, questions answered, beats counted.

use harp::StringName;
use serde::{Deserialize, Serialize};

use crate::figure::as_figure;
use crate::text::{as_text, maybe_text};

/// One sitting of practice, or a part of it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct PracticeKept {
    /// The name of her harp; `None` where she practised without one.
    pub harp: Option<String>,
    /// How long it took, s.
    #[serde(with = "as_figure")]
    pub took_s: f64,
    /// Strings tuned by ear, in the order in which they were.
    pub by_ear: Vec<TunedByEar>,
    /// Made strings that were told high or low, in order.
    pub sizes: Vec<SizeAnswered>,
    /// Questions, in order.
    pub asked: Vec<Asked>,
    /// Beats that were counted, in order.
    pub counted: Vec<BeatsCounted>,
}

/// A string that was tuned by ear, with the tool silent.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct TunedByEar {
    /// What was practised.
    pub drill: EarDrill,
    /// The string that was tuned.
    #[serde(with = "as_text")]
    pub string: StringName,
    /// The string that stayed.
    #[serde(with = "maybe_text")]
    pub against: Option<StringName>,
    /// What she said of it before she turned.
    pub guess: Option<Side>,
    /// How it stood before; `None` where it could not be measured.
    pub before: Option<OffKept>,
    /// How she left it; `None` where it could not be measured.
    pub after: Option<OffKept>,
    /// What the string that was tuned should sound by its place on the harp, Hz.
    #[serde(with = "as_figure")]
    pub target_hz: f64,
    /// What it sounded before; `None` where it could not be measured.
    pub found: Option<HeardKept>,
    /// What it sounded as she left it; `None` where it could not be measured.
    pub left: Option<HeardKept>,
    /// How long it took her, s.
    #[serde(with = "as_figure")]
    pub took_s: f64,
}

/// What a string sounded, with no disc or lever at work.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct HeardKept {
    /// Its sounding pitch, Hz.
    #[serde(with = "as_figure")]
    pub heard_hz: f64,
    /// Half of the 95 % interval, cents.
    #[serde(with = "as_figure")]
    pub u95_cents: f64,
}

/// How far a string stood above where the string that stayed wants it, cents; negative when below.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OffKept {
    /// How far, cents.
    #[serde(with = "as_figure")]
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    #[serde(with = "as_figure")]
    pub u95_cents: f64,
}

/// What was tuned by ear.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum EarDrill {
    /// An octave.
    Octave,
    /// Two strings that sound alike, one of them by its pedal or lever.
    Unison,
    /// A fifth.
    Fifth,
    /// All strings of one letter, from one that stays.
    Letter,
}

/// High or low.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Side {
    /// Too high.
    High,
    /// Too low.
    Low,
}

/// A made string that was so far off, and whether she said which way.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct SizeAnswered {
    /// What it should have sounded, Hz.
    #[serde(with = "as_figure")]
    pub hz: f64,
    /// How far off it was, cents, above nought.
    #[serde(with = "as_figure")]
    pub size_cents: f64,
    /// Whether she was right.
    pub right: bool,
}

/// A question that was answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Asked {
    /// What it was about.
    pub about: AskedAbout,
    /// Whether the answer was right.
    pub right: bool,
}

/// What questions are about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum AskedAbout {
    /// What a tuner shows for a string, or the other way round.
    TunerName,
    /// Which pin a string has.
    Pin,
    /// Which octave number a string has.
    OctaveNumber,
    /// What a diagram of pedals or levers says.
    DiagramRead,
    /// A diagram that was to be set.
    DiagramSet,
}

/// Beats that were counted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct BeatsCounted {
    /// How many there were each second.
    #[serde(with = "as_figure")]
    pub per_s: f64,
    /// How many she counted.
    #[serde(with = "as_figure")]
    pub said_per_s: f64,
}
