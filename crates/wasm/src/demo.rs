//! An invented harp and player, so that the page can be tried without a harp.

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::{Performance, tuned_demo};
use wasm_bindgen::prelude::*;

/// The harp stands at this A4, Hz.
const A4_HZ: f64 = 442.0;
/// The sound of an invented round: nothing of it was recorded.
#[wasm_bindgen]
pub struct DemoRound {
    sound: Performance,
    rate_hz: u32,
    waiting: Vec<f32>,
}

#[wasm_bindgen]
impl DemoRound {
    /// A dozen strings of a pedal harp that has sunk, tuned to A = 442 Hz.
    #[wasm_bindgen(constructor)]
    pub fn new() -> Result<DemoRound, JsError> {
        let reference = ReferencePitch::new(A4_HZ)?;
        let standing = Harp::named("pedal47")?.standing(&Setup::open(reference))?;
        let round = tuned_demo(&standing)?;
        Ok(DemoRound {
            rate_hz: round.rate_hz,
            sound: round.perform()?,
            waiting: Vec::new(),
        })
    }

    /// Samples a second.
    pub fn rate_hz(&self) -> u32 {
        self.rate_hz
    }

    /// At least so many samples more, −1 to 1; fewer at the end, and none after it.
    pub fn more(&mut self, samples: usize) -> Vec<f32> {
        while self.waiting.len() < samples {
            match self.sound.next() {
                Some(block) => self.waiting.extend(block),
                None => break,
            }
        }
        std::mem::take(&mut self.waiting)
    }
}
