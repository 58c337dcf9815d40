//! What was practised, as a line of the diary.

use diary::{
    Asked, AskedAbout, BeatsCounted, EarDrill, Entry, HeardKept, OffKept, PracticeKept, Side,
    SizeAnswered, TunedByEar,
};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::harp_choice::{ChoiceError, HarpChoice};
use crate::written::{RecordPlace, line};

/// One sitting of practice, or a part of it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Practised {
    /// Her own harp; none where she practised without one.
    pub harp: Option<HarpChoice>,
    /// How long it took, seconds.
    pub took_s: f64,
    /// Strings tuned by ear.
    #[serde(default)]
    pub by_ear: Vec<EarKept>,
    /// Made strings told high or low.
    #[serde(default)]
    pub sizes: Vec<SizeKept>,
    /// Questions.
    #[serde(default)]
    pub asked: Vec<AskedKept>,
    /// Beats counted.
    #[serde(default)]
    pub counted: Vec<CountedKept>,
}

/// A string tuned by ear; strings as in files.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct EarKept {
    /// `octave`, `unison`, `fifth`, `letter`
    pub drill: String,
    pub string: String,
    pub against: Option<String>,
    /// `high`, `low`
    pub guess: Option<String>,
    pub before: Option<StoodAt>,
    pub after: Option<StoodAt>,
    pub target_hz: f64,
    pub found: Option<HeardAt>,
    pub left: Option<HeardAt>,
    pub took_s: f64,
}

/// What a string sounded.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct HeardAt {
    pub heard_hz: f64,
    pub u95_cents: f64,
}

/// How far above where the other string wants it, cents.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct StoodAt {
    pub off_cents: f64,
    pub u95_cents: f64,
}

/// A made string that was told high or low.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct SizeKept {
    pub hz: f64,
    pub size_cents: f64,
    pub right: bool,
}

/// A question that was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct AskedKept {
    /// `tuner_name`, `pin`, `octave_number`, `diagram_read`, `diagram_set`
    pub about: String,
    pub right: bool,
}

/// Beats that were counted.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own record"
)]
pub struct CountedKept {
    pub per_s: f64,
    pub said_per_s: f64,
}

/// What was practised, as a line of the diary.
#[wasm_bindgen]
pub fn practice_line(place: Ts<RecordPlace>, practised: Ts<Practised>) -> Result<String, JsError> {
    let entry = Entry::Practice(practised.to_rust()?.kept()?);
    line(&place.to_rust()?, &entry)
}

impl Practised {
    fn kept(&self) -> Result<PracticeKept, ChoiceError> {
        let by_ear = self.by_ear.iter().map(EarKept::kept);
        let asked = self.asked.iter().map(|one| {
            Ok(Asked {
                about: about(&one.about)?,
                right: one.right,
            })
        });
        Ok(PracticeKept {
            harp: self.harp.as_ref().map(HarpChoice::name),
            took_s: self.took_s,
            by_ear: by_ear.collect::<Result<_, _>>()?,
            sizes: (self.sizes.iter())
                .map(|one| SizeAnswered {
                    hz: one.hz,
                    size_cents: one.size_cents,
                    right: one.right,
                })
                .collect(),
            asked: asked.collect::<Result<_, ChoiceError>>()?,
            counted: (self.counted.iter())
                .map(|one| BeatsCounted {
                    per_s: one.per_s,
                    said_per_s: one.said_per_s,
                })
                .collect(),
        })
    }
}

impl EarKept {
    fn kept(&self) -> Result<TunedByEar, ChoiceError> {
        let stood = |at: Option<StoodAt>| {
            at.map(|at| OffKept {
                off_cents: at.off_cents,
                u95_cents: at.u95_cents,
            })
        };
        let heard = |at: Option<HeardAt>| {
            at.map(|at| HeardKept {
                heard_hz: at.heard_hz,
                u95_cents: at.u95_cents,
            })
        };
        Ok(TunedByEar {
            drill: drill(&self.drill)?,
            string: self.string.parse()?,
            against: self.against.as_ref().map(|s| s.parse()).transpose()?,
            guess: self.guess.as_deref().map(side).transpose()?,
            before: stood(self.before),
            after: stood(self.after),
            target_hz: self.target_hz,
            found: heard(self.found),
            left: heard(self.left),
            took_s: self.took_s,
        })
    }
}

fn drill(word: &str) -> Result<EarDrill, ChoiceError> {
    match word {
        "octave" => Ok(EarDrill::Octave),
        "unison" => Ok(EarDrill::Unison),
        "fifth" => Ok(EarDrill::Fifth),
        "letter" => Ok(EarDrill::Letter),
        other => Err(ChoiceError::Practice(other.to_owned())),
    }
}

fn side(word: &str) -> Result<Side, ChoiceError> {
    match word {
        "high" => Ok(Side::High),
        "low" => Ok(Side::Low),
        other => Err(ChoiceError::Practice(other.to_owned())),
    }
}

fn about(word: &str) -> Result<AskedAbout, ChoiceError> {
    match word {
        "tuner_name" => Ok(AskedAbout::TunerName),
        "pin" => Ok(AskedAbout::Pin),
        "octave_number" => Ok(AskedAbout::OctaveNumber),
        "diagram_read" => Ok(AskedAbout::DiagramRead),
        "diagram_set" => Ok(AskedAbout::DiagramSet),
        other => Err(ChoiceError::Practice(other.to_owned())),
    }
}
