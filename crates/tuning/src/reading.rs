//! What a pluck turns out to be: a reading, a refusal with its reason, or a warning.

use harp::StringName;
use pitch::Alteration;

/// One thing heard, in the order of hearing.
#[derive(Clone, Debug, PartialEq)]
pub enum Heard {
    /// A pluck was measured.
    Reading(Reading),
    /// A pluck was heard and could not be measured.
    Refused(Refused),
    /// Something that the player should know.
    Warning(Warning),
}

/// One measured pluck. Frequencies in hertz, intervals in cents; every `u95` is half of a 95 % interval.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Whether this is the pluck's final word; early readings come before it.
    pub last: bool,
    /// The onset, in seconds from the start of the sound.
    pub at_s: f64,
    /// The string, or none where two strings sound this pitch in the present setting.
    pub string: Option<StringName>,
    /// The strings that explain the pluck: one where it is sure, more where it is not.
    pub candidates: Vec<StringName>,
    /// The alteration that the string should sound in its present position.
    pub position: Option<Alteration>,
    /// What it should sound.
    pub target_hz: f64,
    /// The sounding pitch, as an ear or another instrument would compare it.
    pub heard_hz: f64,
    /// `heard_hz` against `target_hz`: positive when it is too high.
    pub off_cents: f64,
    /// Half of the 95 % interval of `off_cents`.
    pub u95_cents: f64,
    /// What an equal-tempered display at the same A4 would show.
    pub shows_as: String,
    /// How far off such a display would show it, −50 to 50.
    pub shows_off_cents: f64,
    /// The first partial by the stiff-string fit, f0·√(1+B).
    pub f1_hz: f64,
    /// Half of the 95 % interval of `f1_hz`, in cents.
    pub f1_u95_cents: f64,
    /// The fit's f0.
    pub f0_hz: f64,
    /// The fit's inharmonicity B.
    pub b: f64,
    /// How far above its later pitch the string began.
    pub glide_cents: f64,
    /// The partials that could be measured, each by itself.
    pub partials: Vec<Partial>,
    /// How long it was listened to, from the onset.
    pub listened_s: f64,
    /// 0 to 1: how sure the string's name is.
    pub string_certainty: f64,
    /// Which way the string has to go; none where another string explains the pluck nearly as well.
    pub direction: Option<Direction>,
    /// How much of `off_cents` comes of stiffness: `heard_hz` against `f1_hz`.
    pub stiffness_cents: f64,
    /// How long it would ring, seconds to −60 dB, by its strongest partial while it was listened to; none where that was not
    /// kept.
    pub t60_s: Option<f64>,
    /// How loud it was, decibels against full scale: the mean power of 0.05 to 0.3 s after the onset, or of what was
    /// heard of that; none where that was not kept.
    pub level_dbfs: Option<f64>,
}

/// A partial as measured by itself, not as the law would have it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Partial {
    /// Its number, 1 the first.
    pub n: u32,
    /// Its frequency once the glide has died.
    pub hz: f64,
    /// Half of the 95 % interval, in cents.
    pub u95_cents: f64,
}

/// Which way a string has to go.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Direction {
    /// It sounds below its target.
    Up,
    /// It sounds above its target.
    Down,
    /// Nothing to do that this reading could show.
    There,
}

/// A pluck that could not be measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Refused {
    /// The onset, in seconds from the start of the sound.
    pub at_s: f64,
    /// The string, where at least that is known.
    pub string: Option<StringName>,
    /// Why.
    pub reason: Reason,
    /// The figures behind the reason, in words.
    pub detail: String,
}

/// Why a pluck was refused.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// The next pluck, or the end of the sound, came too soon.
    TooShort,
    /// Two strings sound at once.
    TwoStrings,
    /// Other sound covers the string.
    TooNoisy,
    /// Samples are missing from the sound.
    AudioBroke,
    /// No string of this harp, in its present setting, sounds like this.
    NoString,
    /// Two strings are nearly as likely.
    NotSure,
}

impl Reason {
    /// The words used on screens and in JSON.
    pub fn as_str(self) -> &'static str {
        match self {
            Reason::TooShort => "too short",
            Reason::TwoStrings => "two strings at once",
            Reason::TooNoisy => "too noisy",
            Reason::AudioBroke => "audio broke",
            Reason::NoString => "no string of this harp",
            Reason::NotSure => "string not sure",
        }
    }
}

/// Something that the player should know, beside the readings.
#[derive(Clone, Debug, PartialEq)]
pub struct Warning {
    /// Seconds from the start of the sound.
    pub at_s: f64,
    /// The string it is about, if any.
    pub string: Option<StringName>,
    /// What kind.
    pub warning: WarningKind,
    /// The figures behind it, in words.
    pub detail: String,
}

/// The kinds of warning.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WarningKind {
    /// Samples are missing from the sound.
    AudioBroke,
    /// The loudest samples are cut off.
    Clipped,
}

impl WarningKind {
    /// The words used on screens and in JSON.
    pub fn as_str(self) -> &'static str {
        match self {
            WarningKind::AudioBroke => "audio broke",
            WarningKind::Clipped => "clipped",
        }
    }
}
