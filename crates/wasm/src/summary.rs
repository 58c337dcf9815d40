//! What a round came to, as a table: before and after of every string.

use harp::Harp;
use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::round::{Round, Say, state_words};

use crate::shown::Voice;

/// A round in figures and words.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct SummaryView {
    /// Every string from the bass.
    pub strings: Vec<SummedString>,
    /// Minutes, pauses left out.
    pub minutes: f64,
    /// Strings in tune.
    pub in_tune: usize,
    /// Strings that are still asked for.
    pub left: usize,
    /// What to hear again, as they are called.
    pub again: Vec<String>,
    /// Every warning, a sentence each.
    pub warnings: Vec<String>,
    /// Tonight's A4, Hz.
    pub a4_hz: f64,
}

/// One string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct SummedString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Its colour: `red`, `dark`, `metallic`, `plain`.
    pub colour: String,
    /// What it should sound.
    pub sounds: String,
    /// Cents above its target as it was found.
    pub before_cents: Option<f64>,
    /// As it was left.
    pub after_cents: Option<f64>,
    /// Half of the 95 % interval of that.
    pub u95_cents: Option<f64>,
    /// How many readings it was given.
    pub plucks: usize,
    /// How it stands, in a word that programs read.
    pub state: String,
    /// The same for people.
    pub state_words: String,
    /// Whether no pedal or lever moves it.
    pub unmoved: bool,
}

pub(crate) fn summed(round: &Round, harp: &Harp, voice: &Voice) -> SummaryView {
    let summary = round.summary();
    let strings = summary.strings.iter().zip(&round.plan().strings);
    let strings = strings.map(|(s, planned)| SummedString {
        id: s.string.to_string(),
        name: voice.string(s.string),
        colour: harp
            .string(s.string)
            .map_or("plain", |h| h.colour.as_str())
            .to_owned(),
        sounds: voice.pitch(planned.standing.pitch),
        before_cents: s.before.map(|k| k.off_cents),
        after_cents: s.after.map(|k| k.off_cents),
        u95_cents: s.after.map(|k| k.u95_cents),
        plucks: s.plucks,
        state: s.state.as_str().to_owned(),
        state_words: state_words(s.state, voice.tongue).to_owned(),
        unmoved: planned.mechanism == harp::Mechanism::Nothing,
    });
    let warnings = summary.warnings.iter();
    SummaryView {
        strings: strings.collect(),
        minutes: summary.minutes,
        in_tune: summary
            .strings
            .iter()
            .filter(|s| s.state.is_in_tune())
            .count(),
        left: summary.left,
        again: summary.again.iter().map(|s| voice.string(*s)).collect(),
        warnings: warnings
            .map(|w| voice.sentence(&Say::Warning(w.warning.clone())))
            .collect(),
        a4_hz: round.plan().reference.a4_hz(),
    }
}
