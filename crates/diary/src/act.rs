//! What the player did, as records hold it: `{"does":"skip","string":"G3"}`.

use harp::StringName;
use pitch::{Letter, SpelledPitch};
use serde::{Deserialize, Serialize};
use tuning::round::{Act, Then};

use crate::figure::Figure;
use crate::text::Text;
use crate::twin::{twin, with_twin};

twin! {
    /// What is done about a broken string.
    ThenBody is Then { PlayWithout = "play_without", FittedNow = "fitted_now" }
}

twin! {
    /// A letter.
    LetterBody is Letter {
        C = "C", D = "D", E = "E", F = "F", G = "G", A = "A", B = "B",
    }
}

with_twin! {
    /// For fields of other records.
    letter: LetterBody as Letter
}

/// An act; what it names beside itself stands with it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(tag = "does")]
pub(crate) enum ActBody {
    #[serde(rename = "begin")]
    Begin,
    #[serde(rename = "this_one")]
    ThisOne { string: Text<StringName> },
    #[serde(rename = "let_go")]
    LetGo,
    #[serde(rename = "skip")]
    Skip { string: Text<StringName> },
    #[serde(rename = "broke")]
    Broke {
        string: Text<StringName>,
        then: ThenBody,
    },
    #[serde(rename = "next")]
    Next,
    #[serde(rename = "again")]
    Again { string: Text<StringName> },
    #[serde(rename = "not_in_tune")]
    NotInTune { string: Text<StringName> },
    #[serde(rename = "in_tune_by_ear")]
    InTuneByEar { string: Text<StringName> },
    #[serde(rename = "pause")]
    Pause,
    #[serde(rename = "resume")]
    Resume,
    #[serde(rename = "set_to")]
    SetTo {
        string: Text<StringName>,
        pitch: Text<SpelledPitch>,
    },
    #[serde(rename = "between_pieces")]
    BetweenPieces,
    #[serde(rename = "moved_on_purpose")]
    MovedOnPurpose { string: Text<StringName> },
    #[serde(rename = "as_said")]
    AsSaid { letter: LetterBody },
    #[serde(rename = "use_a")]
    UseA {
        a4_hz: Figure,
        technician_asked: bool,
    },
    #[serde(rename = "finish")]
    Finish,
}

impl From<Act> for ActBody {
    fn from(act: Act) -> Self {
        match act {
            Act::Begin => Self::Begin,
            Act::ThisOne(s) => Self::ThisOne { string: Text(s) },
            Act::LetGo => Self::LetGo,
            Act::Skip(s) => Self::Skip { string: Text(s) },
            Act::Broke(s, then) => Self::Broke {
                string: Text(s),
                then: then.into(),
            },
            Act::Next => Self::Next,
            Act::Again(s) => Self::Again { string: Text(s) },
            Act::NotInTune(s) => Self::NotInTune { string: Text(s) },
            Act::InTuneByEar(s) => Self::InTuneByEar { string: Text(s) },
            Act::Pause => Self::Pause,
            Act::Resume => Self::Resume,
            Act::SetTo(s, pitch) => Self::SetTo {
                string: Text(s),
                pitch: Text(pitch),
            },
            Act::BetweenPieces => Self::BetweenPieces,
            Act::MovedOnPurpose(s) => Self::MovedOnPurpose { string: Text(s) },
            Act::AsSaid(letter) => Self::AsSaid {
                letter: letter.into(),
            },
            Act::UseA {
                a4_hz,
                technician_asked,
            } => Self::UseA {
                a4_hz: Figure(a4_hz),
                technician_asked,
            },
            Act::Finish => Self::Finish,
        }
    }
}

impl From<ActBody> for Act {
    fn from(body: ActBody) -> Self {
        match body {
            ActBody::Begin => Self::Begin,
            ActBody::ThisOne { string } => Self::ThisOne(string.0),
            ActBody::LetGo => Self::LetGo,
            ActBody::Skip { string } => Self::Skip(string.0),
            ActBody::Broke { string, then } => Self::Broke(string.0, then.into()),
            ActBody::Next => Self::Next,
            ActBody::Again { string } => Self::Again(string.0),
            ActBody::NotInTune { string } => Self::NotInTune(string.0),
            ActBody::InTuneByEar { string } => Self::InTuneByEar(string.0),
            ActBody::Pause => Self::Pause,
            ActBody::Resume => Self::Resume,
            ActBody::SetTo { string, pitch } => Self::SetTo(string.0, pitch.0),
            ActBody::BetweenPieces => Self::BetweenPieces,
            ActBody::MovedOnPurpose { string } => Self::MovedOnPurpose(string.0),
            ActBody::AsSaid { letter } => Self::AsSaid(letter.into()),
            ActBody::UseA {
                a4_hz,
                technician_asked,
            } => Self::UseA {
                a4_hz: a4_hz.0,
                technician_asked,
            },
            ActBody::Finish => Self::Finish,
        }
    }
}
