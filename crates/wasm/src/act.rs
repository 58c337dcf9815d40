//! What the player does, as the page says it.

use harp::StringName;
use pitch::{Letter, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::Tsify;
use tuning::round::{Act, Then};

use crate::harp_choice::ChoiceError;

/// One thing done, and what it is done to. Strings and pitches as in files: `G3`, `Cb1`.
///
/// It is flat, not a case with its fields: that way its reader is small.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PageAct {
    /// What is done.
    pub act: Deed,
    /// The string, of a deed that is done to one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub string: Option<String>,
    /// Of `broke`: whether a new one is fitted now; otherwise the round goes on without it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub fitted_now: Option<bool>,
    /// Of `set_to`: the pitch.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub pitch: Option<String>,
    /// Of `as_said`: the letter.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub letter: Option<String>,
    /// Of `use_a`: Hz, 380 to 480.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub a4_hz: Option<f64>,
    /// Of `use_a`: whether a technician was asked.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    #[tsify(optional)]
    pub technician_asked: Option<bool>,
}

/// What may be done.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Deed {
    /// Begin.
    Begin,
    /// What is plucked now is this string.
    ThisOne,
    /// It may be any string.
    LetGo,
    /// Leave a string out.
    Skip,
    /// A string broke.
    Broke,
    /// Leave the present string for now.
    Next,
    /// Hear a string again.
    Again,
    /// It was called in tune and is not.
    NotInTune,
    /// Her ear says that it is.
    InTuneByEar,
    /// Stop listening.
    Pause,
    /// Go on.
    Resume,
    /// A string without discs is to stand at a pitch.
    SetTo,
    /// A piece is over.
    BetweenPieces,
    /// She moved it herself.
    MovedOnPurpose,
    /// Pedal or levers of a letter do stand where she said.
    AsSaid,
    /// Tune to this A4.
    UseA,
    /// The round is over.
    Finish,
}

impl PageAct {
    /// A deed that is done to nothing.
    pub(crate) fn of(act: Deed) -> PageAct {
        PageAct {
            act,
            string: None,
            fitted_now: None,
            pitch: None,
            letter: None,
            a4_hz: None,
            technician_asked: None,
        }
    }

    /// A deed that is done to a string.
    pub(crate) fn to(act: Deed, string: StringName) -> PageAct {
        PageAct {
            string: Some(string.to_string()),
            ..PageAct::of(act)
        }
    }

    /// Pedal or levers of a letter stand as was said.
    pub(crate) fn as_said(letter: Letter) -> PageAct {
        PageAct {
            letter: Some(letter.to_string()),
            ..PageAct::of(Deed::AsSaid)
        }
    }

    /// Tune to this A4, no technician having been asked.
    pub(crate) fn use_a(a4_hz: f64) -> PageAct {
        PageAct {
            a4_hz: Some(a4_hz),
            technician_asked: Some(false),
            ..PageAct::of(Deed::UseA)
        }
    }

    pub(crate) fn act(&self) -> Result<Act, ChoiceError> {
        Ok(match self.act {
            Deed::Begin => Act::Begin,
            Deed::ThisOne => Act::ThisOne(self.its_string()?),
            Deed::LetGo => Act::LetGo,
            Deed::Skip => Act::Skip(self.its_string()?),
            Deed::Broke => {
                let then = if self.fitted_now == Some(true) {
                    Then::FittedNow
                } else {
                    Then::PlayWithout
                };
                Act::Broke(self.its_string()?, then)
            }
            Deed::Next => Act::Next,
            Deed::Again => Act::Again(self.its_string()?),
            Deed::NotInTune => Act::NotInTune(self.its_string()?),
            Deed::InTuneByEar => Act::InTuneByEar(self.its_string()?),
            Deed::Pause => Act::Pause,
            Deed::Resume => Act::Resume,
            Deed::SetTo => Act::SetTo(self.its_string()?, self.its_pitch()?),
            Deed::BetweenPieces => Act::BetweenPieces,
            Deed::MovedOnPurpose => Act::MovedOnPurpose(self.its_string()?),
            Deed::AsSaid => Act::AsSaid(self.its_letter()?),
            Deed::UseA => Act::UseA {
                a4_hz: self.a4_hz.ok_or(ChoiceError::Without("an A"))?,
                technician_asked: self.technician_asked == Some(true),
            },
            Deed::Finish => Act::Finish,
        })
    }

    fn its_string(&self) -> Result<StringName, ChoiceError> {
        let string = self
            .string
            .as_ref()
            .ok_or(ChoiceError::Without("a string"))?;
        Ok(string.parse()?)
    }

    fn its_pitch(&self) -> Result<SpelledPitch, ChoiceError> {
        let pitch = self.pitch.as_ref().ok_or(ChoiceError::Without("a pitch"))?;
        Ok(pitch.parse()?)
    }

    fn its_letter(&self) -> Result<Letter, ChoiceError> {
        let letter = self
            .letter
            .as_ref()
            .ok_or(ChoiceError::Without("a letter"))?;
        let known = Letter::ALL.into_iter().find(|l| l.to_string() == *letter);
        known.ok_or_else(|| ChoiceError::Letter(letter.clone()))
    }
}
