//! Take the A: a held note listened to, and the A that it stands for.

use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::round::{HOLD_S, HearError, HeldEar, Raise, Say, TakeError};
use wasm_bindgen::prelude::*;

use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// How far a note has been held.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Holding {
    /// Seconds without a break.
    pub held_s: f64,
    /// Seconds that are needed.
    pub of_s: f64,
    /// What it sounds now, Hz.
    pub hz: Option<f64>,
}

/// What came of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct TakenView {
    /// The A4 to the nearest half hertz; none where there is none.
    pub a4_hz: Option<f64>,
    /// As it was heard, Hz.
    pub heard_hz: Option<f64>,
    /// Half of its 95 % interval, cents.
    pub u95_cents: Option<f64>,
    /// Whether a technician is to be asked first.
    pub asks_technician: bool,
    /// What there is to say.
    pub words: String,
    /// Why there is none, in a word that programs read.
    pub refused: Option<String>,
}

/// An ear for one note that was named.
#[wasm_bindgen]
pub struct TakeA {
    ear: HeldEar,
    voice: Voice,
    usual_a4_hz: Option<f64>,
    latest_hz: Option<f64>,
}

#[wasm_bindgen]
impl TakeA {
    /// For sound at `rate_hz` and the note that is held, as in `A4`.
    #[wasm_bindgen(constructor)]
    pub fn new(
        rate_hz: u32,
        note: &str,
        usual_a4_hz: Option<f64>,
        shown: Ts<ShownChoice>,
    ) -> Result<TakeA, JsError> {
        Ok(TakeA {
            ear: HeldEar::new(rate_hz, note.parse()?)?,
            voice: Voice::of(&shown.to_rust()?),
            usual_a4_hz,
            latest_hz: None,
        })
    }

    /// Takes in samples, −1 to 1.
    pub fn push(&mut self, samples: &[f32]) -> Result<Ts<Holding>, JsError> {
        if let Some(last) = self.ear.push(samples).last() {
            self.latest_hz = Some(last.hz);
        }
        let held_s = self.ear.held_s();
        let holding = Holding {
            held_s,
            of_s: HOLD_S,
            hz: self.latest_hz.filter(|_| held_s > 0.0),
        };
        Ok(holding.into_ts()?)
    }

    /// Ends it.
    pub fn finish(self) -> Result<Ts<TakenView>, JsError> {
        let (voice, usual_a4_hz) = (self.voice, self.usual_a4_hz);
        let view = match self.ear.finish().take_the_a() {
            Ok(taken) => {
                let raise = usual_a4_hz.map(|usual| Raise::between(usual, taken.a4_hz));
                let say = Say::TheA {
                    taken,
                    raise,
                    strings: Vec::new(),
                };
                TakenView {
                    a4_hz: Some(taken.a4_hz),
                    heard_hz: Some(taken.heard_hz),
                    u95_cents: Some(taken.u95_cents),
                    asks_technician: raise.is_some_and(Raise::asks_a_technician),
                    words: voice.sentence(&say),
                    refused: None,
                }
            }
            Err(error) => refused(&error, &voice),
        };
        Ok(view.into_ts()?)
    }
}

fn refused(error: &HearError, voice: &Voice) -> TakenView {
    let (word, say) = match error {
        HearError::NotHeard => ("not heard", None),
        HearError::NotAlone { .. } => ("not alone", None),
        HearError::HeldTooShort { .. } => ("too short", Some(TakeError::TooShort { estimates: 0 })),
        HearError::Take(error) => (
            match error {
                TakeError::TooShort { .. } => "too short",
                TakeError::Unsteady { .. } => "unsteady",
                TakeError::OutOfRange { .. } => "out of range",
            },
            Some(*error),
        ),
    };
    TakenView {
        a4_hz: None,
        heard_hz: None,
        u95_cents: None,
        asks_technician: false,
        words: say.map_or(String::new(), |error| voice.sentence(&Say::NoA(error))),
        refused: Some(word.to_owned()),
    }
}
