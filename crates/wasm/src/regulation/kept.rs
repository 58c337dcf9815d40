//! A check as the page keeps it while it goes on: what was asked, and what was taken or left out, in order.

use harp::{Harp, StringName};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use tuning::regulation::{Check, Say};
use wasm_bindgen::prelude::*;

use super::asked::CheckAsk;
use crate::harp_choice::ChoiceError;

/// A check so far.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct KeptCheck {
    /// What was asked for.
    pub ask: CheckAsk,
    /// What was done.
    pub steps: Vec<KeptStep>,
}

/// A string that was read, or left out.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct KeptStep {
    /// The string.
    pub string: String,
    /// How far off it was, cents; none where it was left out.
    pub off_cents: Option<f64>,
    /// Half of the 95 % interval.
    pub u95_cents: Option<f64>,
}

/// How far a check is.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct KeptSoFar {
    /// Plucks that were read.
    pub read: usize,
    /// Plucks to come.
    pub left: usize,
}

/// How far a check is that was kept; an error where it is none of today's.
#[wasm_bindgen]
pub fn kept_so_far(kept: Ts<KeptCheck>) -> Result<Ts<KeptSoFar>, JsError> {
    let (_, check) = kept.to_rust()?.again()?;
    let far = KeptSoFar {
        read: check.plucks().len(),
        left: check.left(),
    };
    Ok(far.into_ts()?)
}

impl KeptStep {
    pub(crate) fn skipped(string: StringName) -> KeptStep {
        KeptStep {
            string: string.to_string(),
            off_cents: None,
            u95_cents: None,
        }
    }
}

impl KeptCheck {
    /// The check as it stood.
    pub(crate) fn again(&self) -> Result<(Harp, Check), ChoiceError> {
        let (harp, mut check) = self.ask.begun()?;
        for step in &self.steps {
            let string = step.string.parse()?;
            let (Some(off), Some(u95)) = (step.off_cents, step.u95_cents) else {
                check.skip(string);
                continue;
            };
            // what stood as before was asked about, plucked again, and taken as it was
            if let [Say::AsBefore(_), ..] = check.heard(string, off, u95)[..] {
                check.heard(string, off, u95);
            }
        }
        Ok((harp, check))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harp_choice::{HarpChoice, Kind};

    #[test]
    fn a_check_is_taken_up_where_it_was_left_a_pedal_that_was_not_moved_with_it() {
        let step = |string: &str, off: Option<f64>| KeptStep {
            string: string.to_owned(),
            off_cents: off,
            u95_cents: off.map(|_| 0.5),
        };
        let kept = KeptCheck {
            ask: CheckAsk {
                harp: HarpChoice {
                    kind: Kind::Pedal,
                    lowest: "C1".to_owned(),
                    highest: "G7".to_owned(),
                    open: None,
                    unmoved: Vec::new(),
                },
                a4_hz: 442.0,
                strings: ["G4", "F4", "E4"].map(str::to_owned).to_vec(),
                new: Vec::new(),
                discless: Vec::new(),
            },
            steps: vec![
                step("G4", Some(1.0)),
                step("E4", None),
                step("F4", Some(-2.0)),
                // natural: the pedal was not moved, as she said by plucking again
                step("G4", Some(-99.0)),
            ],
        };
        let (_, check) = kept.again().unwrap();
        assert_eq!((check.plucks().len(), check.left()), (3, 5));
        let next = check.next().unwrap();
        assert_eq!(
            (next.0, next.1.to_string()),
            (harp::Position::Natural, "F4".to_owned())
        );
    }
}
