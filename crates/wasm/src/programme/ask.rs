//! From what the page wishes to what the planner wants.

use harp::{Harp, StringName};
use pedals::{Broken, Demand, Feet, Pin, Plan, Quarters, Spelling, Wishes, pins_at};
use pitch::{Alteration, Letter};

use super::wishes::{DeadDisc, Pinned, PlanWishes, StuckPedal};
use crate::harp_choice::ChoiceError;

/// Wishes that can be planned with.
pub(crate) struct Asked {
    pub(crate) wishes: Wishes,
    pub(crate) said: PlanWishes,
}

/// A plan and what it was made of.
pub(crate) struct Ready {
    pub(crate) harp: Harp,
    pub(crate) asked: Asked,
    pub(crate) plan: Plan,
}

impl Asked {
    /// A pin at a place that the piece does not have is passed over: another part, or a shorter piece, may have taken its
    /// place.
    pub(crate) fn of(said: &PlanWishes, demand: &Demand) -> Result<Asked, ChoiceError> {
        let mut wishes = if said.fewest {
            Wishes::fewest(demand)
        } else {
            Wishes {
                weights: said.prices.into(),
                ..Wishes::comfortable()
            }
        };
        let tau_s = said.tau_s.clamp(0.0, 5.0);
        wishes.feet = Feet {
            crossing: said.cross,
            together: said.two,
            ..Feet::with_least_time((tau_s * 1e6).round() as u64)
        };
        if said.written_spelling {
            wishes.spelling = Spelling::Written;
        }
        wishes.retune_rest_us = said.retune_s.map(|seconds| (seconds * 1e6) as u64);
        wishes.broken = broken(&said.stuck, &said.missing, &said.dead)?;
        for pin in &said.pins {
            wishes.pins.extend(pins(pin, demand)?);
        }
        Ok(Asked {
            wishes,
            said: said.clone(),
        })
    }
}

/// What is broken, as the page says it.
pub(crate) fn broken(
    stuck: &[StuckPedal],
    missing: &[String],
    dead: &[DeadDisc],
) -> Result<Broken, ChoiceError> {
    let mut broken = Broken::default();
    for stuck in stuck {
        let at = (letter(&stuck.pedal)?, Alteration::from(stuck.to));
        broken.stuck.push(at);
    }
    for string in missing {
        broken.missing.push(string.parse::<StringName>()?);
    }
    for disc in dead {
        let at = (disc.string.parse::<StringName>()?, disc.to.into());
        broken.dead_discs.push(at);
    }
    Ok(broken)
}

/// One place chosen, at all its playings.
pub(crate) fn pins(pin: &Pinned, demand: &Demand) -> Result<Vec<Pin>, ChoiceError> {
    let beat = quarters(&pin.beat).ok_or_else(|| ChoiceError::Beat(pin.beat.clone()))?;
    let letter = letter(&pin.pedal)?;
    Ok(pins_at(demand, pin.measure, beat, letter, pin.to.into()))
}

pub(crate) fn letter(name: &str) -> Result<Letter, ChoiceError> {
    let mut signs = name.chars();
    let letter = signs.next().and_then(Letter::from_char);
    let letter = letter.filter(|_| signs.next().is_none());
    letter.ok_or_else(|| ChoiceError::Letter(name.to_owned()))
}

fn quarters(text: &str) -> Option<Quarters> {
    let (above, below) = text.split_once('/').unwrap_or((text, "1"));
    let below: i64 = below.parse().ok()?;
    (below > 0).then_some(Quarters::new(above.parse().ok()?, below))
}
