//! What the player does, as the page says it.

use harp::StringName;
use pitch::Letter;
use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::round::{Act, Then};

use crate::choice::ChoiceError;

/// One thing done; strings as in files, `G3`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[serde(tag = "act", rename_all = "snake_case")]
pub enum PageAct {
    /// Begin.
    Begin,
    /// What is plucked now is this string.
    ThisOne {
        /// The string.
        string: String,
    },
    /// It may be any string.
    LetGo,
    /// Leave a string out.
    Skip {
        /// The string.
        string: String,
    },
    /// A string broke.
    Broke {
        /// The string.
        string: String,
        /// Whether a new one is fitted now; otherwise the round goes on without it.
        fitted_now: bool,
    },
    /// Leave the present string for now.
    Next,
    /// Hear a string again.
    Again {
        /// The string.
        string: String,
    },
    /// It was called in tune and is not.
    NotInTune {
        /// The string.
        string: String,
    },
    /// Her ear says that it is.
    InTuneByEar {
        /// The string.
        string: String,
    },
    /// Stop listening.
    Pause,
    /// Go on.
    Resume,
    /// A string without discs is to stand here.
    SetTo {
        /// The string.
        string: String,
        /// The pitch, as in `Cb1`.
        pitch: String,
    },
    /// A piece is over.
    BetweenPieces,
    /// She moved it herself.
    MovedOnPurpose {
        /// The string.
        string: String,
    },
    /// Pedal or levers of a letter do stand where she said.
    AsSaid {
        /// The letter.
        letter: char,
    },
    /// Tune to this A4.
    UseA {
        /// Hz, 380 to 480.
        a4_hz: f64,
        /// Whether a technician was asked.
        technician_asked: bool,
    },
    /// The round is over.
    Finish,
}

impl PageAct {
    pub(crate) fn act(&self) -> Result<Act, ChoiceError> {
        let parsed = |s: &String| -> Result<StringName, ChoiceError> { Ok(s.parse()?) };
        Ok(match self {
            PageAct::Begin => Act::Begin,
            PageAct::ThisOne { string } => Act::ThisOne(parsed(string)?),
            PageAct::LetGo => Act::LetGo,
            PageAct::Skip { string } => Act::Skip(parsed(string)?),
            PageAct::Broke { string, fitted_now } => {
                let then = if *fitted_now {
                    Then::FittedNow
                } else {
                    Then::PlayWithout
                };
                Act::Broke(parsed(string)?, then)
            }
            PageAct::Next => Act::Next,
            PageAct::Again { string } => Act::Again(parsed(string)?),
            PageAct::NotInTune { string } => Act::NotInTune(parsed(string)?),
            PageAct::InTuneByEar { string } => Act::InTuneByEar(parsed(string)?),
            PageAct::Pause => Act::Pause,
            PageAct::Resume => Act::Resume,
            PageAct::SetTo { string, pitch } => Act::SetTo(parsed(string)?, pitch.parse()?),
            PageAct::BetweenPieces => Act::BetweenPieces,
            PageAct::MovedOnPurpose { string } => Act::MovedOnPurpose(parsed(string)?),
            PageAct::AsSaid { letter } => {
                let known = Letter::from_char(*letter);
                Act::AsSaid(known.ok_or(ChoiceError::Letter(*letter))?)
            }
            PageAct::UseA {
                a4_hz,
                technician_asked,
            } => Act::UseA {
                a4_hz: *a4_hz,
                technician_asked: *technician_asked,
            },
            PageAct::Finish => Act::Finish,
        })
    }
}
