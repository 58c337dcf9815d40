//! A round that was left unfinished, taken up again.

use diary::{Diary, Writer};
use harp::Harp;
use sheet::Stand;
use tsify::Ts;
use tuning::Sitting;
use tuning::round::{Act, Event};
use wasm_bindgen::prelude::*;

use super::Tune;
use crate::keeper::Keeper;
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;
use crate::view::Phase;

#[wasm_bindgen]
impl Tune {
    /// The last round in these lines that was left unfinished, taken up; it is paused. `device` writes its records, the next
    /// of them in its place `next`.
    pub fn take_up(
        lines: &str,
        shown: Ts<ShownChoice>,
        rate_hz: u32,
        device: &str,
        next: u32,
    ) -> Result<Tune, JsError> {
        let mut all = Diary::default();
        all.import(lines.as_bytes());
        let kept = all.unfinished()?;
        let kept = kept.ok_or_else(|| JsError::new("no round was left unfinished"))?;
        let (sitting, past) = Sitting::resume(
            rate_hz,
            kept.plan.clone(),
            kept.begun.listen_s,
            &kept.events,
        )?;
        let mut stand = Stand::default();
        past.iter().for_each(|happened| stand.take(&happened.says));
        let writer = Writer::new(device, u64::from(next))?;
        let written = kept.events.len() as u64;
        let mut tune = Tune {
            keeper: Keeper::go_on(writer, kept.id.clone(), sitting.round().clone(), written),
            sitting,
            stand,
            harp: Harp::from_toml(&kept.begun.toml)?,
            voice: Voice::of(&shown.to_rust()?),
            phase: phase_after(&kept.events),
            beginning: None,
            few: None,
        };
        if tune.phase == Phase::Listening {
            let paused = tune.sitting.act(Act::Pause);
            tune.took(&paused);
        }
        Ok(tune)
    }
}

/// Where a round stands after its events.
fn phase_after(events: &[Event]) -> Phase {
    let acts = events.iter().rev().find_map(|event| match event {
        Event::Act {
            act: Act::Begin | Act::Resume,
            ..
        } => Some(Phase::Listening),
        Event::Act {
            act: Act::Pause, ..
        } => Some(Phase::Paused),
        Event::Act {
            act: Act::Finish, ..
        } => Some(Phase::Over),
        _ => None,
    });
    acts.unwrap_or(Phase::NotBegun)
}
