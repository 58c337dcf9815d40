//! What the player wishes of a plan, as the page says it.

use pedals::Weights;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::line::Place;

/// Everything that she may wish. Strings as in files, `G3`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PlanWishes {
    /// Fewest notes lost, then fewest moves, then fewest respellings; then the prices count for nothing.
    pub fewest: bool,
    /// What each thing costs.
    pub prices: Prices,
    /// Whether notes go to other strings only where there is no other way.
    pub written_spelling: bool,
    /// Least time between two moves of one foot, seconds, 0 to 5.
    pub tau_s: f64,
    /// Whether the right foot may take B, the left E.
    pub cross: bool,
    /// Whether one foot may take two neighbouring pedals at once.
    pub two: bool,
    /// Strings without discs may be retuned in rests of so many seconds.
    pub retune_s: Option<f64>,
    /// Pedals that are stuck.
    pub stuck: Vec<StuckPedal>,
    /// Strings that are missing.
    pub missing: Vec<String>,
    /// Discs that fail.
    pub dead: Vec<DeadDisc>,
    /// Places that she chose.
    pub pins: Vec<Pinned>,
}

/// A pedal that is stuck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StuckPedal {
    /// The letter.
    pub pedal: String,
    /// Where it stands.
    pub to: Place,
}

/// A disc that fails.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DeadDisc {
    /// The string.
    pub string: String,
    /// Where it fails.
    pub to: Place,
}

/// A pedal at a written place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Pinned {
    /// The written measure, from 1.
    pub measure: u32,
    /// Quarters from 1, an exact fraction.
    pub beat: String,
    /// The letter.
    pub pedal: String,
    /// Where it stands.
    pub to: Place,
}

/// Prices, whole numbers from 0 to 4,000,000; `lost` and `glissando` up to 64 times that.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
pub struct Prices {
    /// A note that does not sound.
    pub lost: u64,
    /// A letter that a glissando finds in another place.
    pub glissando: u64,
    /// A note on another string than the written one.
    pub respelled: u32,
    /// Moving a pedal.
    pub moved: u32,
    /// More, over two notches.
    pub two_notches: u32,
    /// More, neither on a beat nor in a rest.
    pub off_beat: u32,
    /// More, where strings of its letter were struck just now.
    pub ringing: u32,
    /// More, where a foot crosses over.
    pub crossing: u32,
    /// More, where one foot takes two pedals at once.
    pub together: u32,
    /// Otherwise than a mark in the part.
    pub mark: u32,
    /// Retuning a string without discs in a rest.
    pub retuned: u32,
    /// A mark that holds at some times of a repeat only.
    pub passes_differ: u32,
}

/// What she wishes who said nothing.
#[wasm_bindgen]
pub fn usual_wishes() -> Result<Ts<PlanWishes>, JsError> {
    let wishes = PlanWishes {
        fewest: false,
        prices: Weights::comfortable().into(),
        written_spelling: false,
        tau_s: 0.4,
        cross: false,
        two: false,
        retune_s: None,
        stuck: Vec::new(),
        missing: Vec::new(),
        dead: Vec::new(),
        pins: Vec::new(),
    };
    Ok(wishes.into_ts()?)
}

impl From<Weights> for Prices {
    fn from(weights: Weights) -> Self {
        Self {
            lost: weights.lost,
            glissando: weights.glissando,
            respelled: weights.respelled,
            moved: weights.moved,
            two_notches: weights.two_notches,
            off_beat: weights.off_beat,
            ringing: weights.ringing,
            crossing: weights.crossing,
            together: weights.together,
            mark: weights.mark,
            retuned: weights.retuned,
            passes_differ: weights.passes_differ,
        }
    }
}

impl From<Prices> for Weights {
    fn from(prices: Prices) -> Self {
        let (highest, dearest) = (Weights::HIGHEST, u64::from(Weights::HIGHEST) * 64);
        Self {
            lost: prices.lost.min(dearest),
            glissando: prices.glissando.min(dearest),
            respelled: prices.respelled.min(highest),
            moved: prices.moved.min(highest),
            two_notches: prices.two_notches.min(highest),
            off_beat: prices.off_beat.min(highest),
            ringing: prices.ringing.min(highest),
            crossing: prices.crossing.min(highest),
            together: prices.together.min(highest),
            mark: prices.mark.min(highest),
            retuned: prices.retuned.min(highest),
            passes_differ: prices.passes_differ.min(highest),
        }
    }
}
