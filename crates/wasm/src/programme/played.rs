//! How much each string is played: what a round counts with that has only some minutes.

use harp::Harp;
use pedals::{Demand, Known, LeverPlan, PaperPart, PaperRead, ProgrammePiece, programme};
use pitch::ReferencePitch;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::Score;
use super::paper::PaperAsk;
use crate::harp_choice::HarpChoice;

/// A string and its notes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringPlayed {
    /// As in files.
    pub string: String,
    /// Its notes, those that are exposed three times.
    pub weight: f64,
}

/// A plan for levers, with the harp that it is for.
pub(crate) struct ReadyLevers {
    pub(crate) harp: Harp,
    pub(crate) plan: LeverPlan,
}

#[wasm_bindgen]
impl Score {
    /// How much each string is played, by the last plan; nothing where it was not planned.
    pub fn played(&self) -> Result<Vec<Ts<StringPlayed>>, JsError> {
        shown(self.strings_played())
    }
}

impl Score {
    pub(crate) fn strings_played(&self) -> Vec<StringPlayed> {
        let demand: &Demand = &self.demand;
        match (&self.ready, &self.ready_levers) {
            (Some(ready), _) => of(&ready.harp, Known::Pedals(demand, &ready.plan)),
            (None, Some(ready)) => of(&ready.harp, Known::Levers(demand, &ready.plan)),
            (None, None) => Vec::new(),
        }
    }
}

/// The strings that she calls exposed in a part on paper.
#[wasm_bindgen]
pub fn paper_played(
    ask: Ts<PaperAsk>,
    harp: Ts<HarpChoice>,
) -> Result<Vec<Ts<StringPlayed>>, JsError> {
    let PaperRead { part, .. } = PaperPart::read(&ask.to_rust()?.text);
    shown(of(&harp.to_rust()?.harp()?, Known::Paper(&part)))
}

fn shown(played: Vec<StringPlayed>) -> Result<Vec<Ts<StringPlayed>>, JsError> {
    let played = played.into_iter().map(|one| Ok(one.into_ts()?));
    played.collect()
}

fn of(harp: &Harp, known: Known<'_>) -> Vec<StringPlayed> {
    let piece = ProgrammePiece {
        harp_name: "",
        harp,
        reference: ReferencePitch::default(),
        known,
    };
    let used = programme(&[piece]).strings;
    let used = used.iter().map(|one| StringPlayed {
        string: one.string.to_string(),
        weight: one.weight(),
    });
    used.filter(|one| one.weight > 0.0).collect()
}
