//! What stands on the screen while a string is tuned by ear: nothing of where it stands before all is known.

use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::practice::{Came, Guess, Outcome, Said, Told};

/// Cents from which it is asked whether it was that string at all: no hand leaves one so by ear.
const DOUBTFUL_CENTS: f64 = 70.0;

/// A string as it is called, and what is to be seen of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
    /// Its colour in words; empty for a plain one.
    pub looks: String,
}

/// Where a pedal or a lever stands for a unison.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarMoved {
    /// `pedal`, `lever`
    pub what: String,
    /// The letter of the pedal, or the string of the lever.
    pub of: String,
    /// `natural`, `sharp`
    pub to: String,
}

/// What is to be done next.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum EarStage {
    /// Pluck the string that is asked for, before anything is turned.
    Before,
    /// Say whether it is high or low.
    Say,
    /// Tune it.
    Tune,
    /// Pluck the string that is asked for once more.
    After,
    /// All is known of this string.
    Known,
}

/// What stands on the screen.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarView {
    /// What is to be done next.
    pub stage: EarStage,
    /// The string that is plucked now.
    pub asked: Option<EarString>,
    /// The string that stays.
    pub stays: EarString,
    /// The string that is tuned.
    pub tuned: EarString,
    /// What is moved for it.
    pub moved: Option<EarMoved>,
    /// Beats each second that equal temperament has between the two; none where the interval has none to tune by.
    pub wanted_per_s: Option<f64>,
    /// `another`, `not_read`, `far_up`; none where there is nothing to say
    pub told: Option<String>,
    /// The same in words, where the rooms have them.
    pub words: String,
    /// What came of it, once it is known.
    pub outcome: Option<EarOutcome>,
    /// How many strings are done, and of how many.
    pub done: usize,
    /// Of how many.
    pub of: usize,
    /// How often the sound was broken.
    pub breaks: usize,
}

/// What came of a string.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarOutcome {
    /// `high`, `low`; none where she could not tell
    pub guess: Option<String>,
    /// `right`, `wrong`, `too_near`
    pub said: Option<String>,
    /// How it stood before.
    pub before: Option<EarCame>,
    /// How she left it.
    pub after: Option<EarCame>,
}

/// How a string stood against the other.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EarCame {
    /// Above where the other wants it, cents.
    pub off_cents: f64,
    /// Half of the 95 % interval.
    pub u95_cents: f64,
    /// Beats each second that could be heard; none where the interval has none to tune by.
    pub beats_per_s: Option<f64>,
    /// Beats each second that equal temperament has there.
    pub wanted_per_s: Option<f64>,
    /// The partial of the lower string that beats.
    pub low_partial: Option<u32>,
    /// The partial of the higher string that beats.
    pub high_partial: Option<u32>,
    /// Whether it is so far off that another string may have been plucked.
    pub doubtful: bool,
}

pub(super) fn told_word(told: Told) -> &'static str {
    match told {
        Told::Taken => "taken",
        Told::Another(_) => "another",
        Told::NotRead(_) => "not_read",
        Told::FarUp => "far_up",
    }
}

pub(super) fn word_of(guess: Guess) -> &'static str {
    match guess {
        Guess::High => "high",
        Guess::Low => "low",
    }
}

pub(super) fn outcome(of: &Outcome) -> EarOutcome {
    let came = |came: Came| EarCame {
        off_cents: came.off_cents,
        u95_cents: came.u95_cents,
        beats_per_s: came.beats.map(|beats| beats.per_s),
        wanted_per_s: came.wanted.map(|beats| beats.per_s),
        low_partial: came.beats.map(|beats| beats.low_partial),
        high_partial: came.beats.map(|beats| beats.high_partial),
        doubtful: came.off_cents.abs() > DOUBTFUL_CENTS,
    };
    let said = |said: Said| match said {
        Said::Right => "right",
        Said::Wrong => "wrong",
        Said::TooNear => "too_near",
    };
    EarOutcome {
        guess: of.guess.map(|guess| word_of(guess).to_owned()),
        said: of.said.map(|one| said(one).to_owned()),
        before: of.before.map(came),
        after: of.after.map(came),
    }
}
