//! Why a change is there: what it costs, and what it would cost to do without it or to have it elsewhere, found by
//! planning again.

use harp::Naming;
use pedals::{Cost, Mark, Quarters, counted, places, written_marks};
use pitch::Alteration;
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::Score;
use super::ask::{Ready, pins};
use super::line::PlaceLine;
use super::wishes::Pinned;
use crate::harp_choice::ChoiceError;

/// What may be done with a change.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, Tsify)]
#[serde(rename_all = "snake_case")]
pub enum Hold {
    /// Keep it where it is.
    Here,
    /// One place earlier.
    Earlier,
    /// One place later.
    Later,
    /// Not there.
    Not,
}

/// A choice about one change.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Held {
    /// What was chosen.
    pub hold: Hold,
    /// Where the change is wanted, or is not.
    pub place: PlaceLine,
    /// Its letter.
    pub pedal: String,
    /// As the change is called.
    pub name: String,
    /// The places that this pins.
    pub pins: Vec<Pinned>,
}

/// What another way would cost.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct OtherWay {
    /// The way.
    pub held: Held,
    /// What the whole costs more, by these prices; less, where the plan was not the best.
    pub more: i64,
    /// Where that comes from: item, how many more, what they cost more.
    pub items: Vec<(String, i64, i64)>,
    /// Whether a note or another choice stands against it.
    pub impossible: bool,
}

#[wasm_bindgen]
impl Score {
    /// A choice about a change, by its place among the changes; nothing where there is no such place.
    pub fn held(
        &self,
        change: usize,
        hold: Ts<Hold>,
        shown: Ts<crate::shown_choice::ShownChoice>,
    ) -> Result<Option<Ts<Held>>, JsError> {
        let (hold, naming) = (hold.to_rust()?, shown.to_rust()?.naming());
        let held = self.choice(change, hold, naming);
        Ok(held.map(|held| held.into_ts()).transpose()?)
    }

    /// What it would cost to treat a change so; nothing where that cannot be done.
    pub fn other_way(
        &self,
        change: usize,
        hold: Ts<Hold>,
        shown: Ts<crate::shown_choice::ShownChoice>,
    ) -> Result<Option<Ts<OtherWay>>, JsError> {
        let (hold, naming) = (hold.to_rust()?, shown.to_rust()?.naming());
        let (Some(ready), Some(held)) = (&self.ready, self.choice(change, hold, naming)) else {
            return Ok(None);
        };
        let other = self.other(ready, held)?;
        Ok(Some(other.into_ts()?))
    }
}

impl Score {
    fn other(&self, ready: &Ready, held: Held) -> Result<OtherWay, ChoiceError> {
        let mut wishes = ready.asked.wishes.clone();
        for pin in &held.pins {
            let there = pins(pin, &self.demand)?;
            // the newer choice takes the place of an older one
            wishes.pins.retain(|old| {
                let same = |new: &pedals::Pin| (new.moment, new.letter) == (old.moment, old.letter);
                !there.iter().any(same)
            });
            wishes.pins.extend(there);
        }
        let plan = self.planned(&ready.harp, &wishes);
        let (now, then) = (&ready.plan.cost, &plan.cost);
        let more = |one: u64, other: u64| other as i64 - one as i64;
        Ok(OtherWay {
            more: more(without_pins(now), without_pins(then)),
            items: differences(now, then),
            impossible: then.pins.count > now.pins.count,
            held,
        })
    }

    fn choice(&self, change: usize, hold: Hold, naming: Naming) -> Option<Held> {
        let plan = &self.ready.as_ref()?.plan;
        let marks = written_marks(&self.demand, plan);
        let mark = marks.get(change)?;
        let places = places(&self.demand);
        let now = places
            .iter()
            .position(|&place| place == (mark.measure, mark.beat))?;
        let moved = match hold {
            Hold::Here | Hold::Not => now,
            Hold::Earlier => now.checked_sub(1)?,
            Hold::Later => now + 1,
        };
        let &there = places.get(moved)?;
        let before = moved.checked_sub(1).and_then(|before| places.get(before));
        let pins = match hold {
            Hold::Not => vec![pinned(mark, there, mark.from)],
            _ => {
                let stands = before.map(|&before| pinned(mark, before, mark.from));
                let goes = pinned(mark, there, mark.to);
                stands.into_iter().chain([goes]).collect()
            }
        };
        let (measure, beat) = there;
        Some(Held {
            hold,
            place: PlaceLine {
                measure,
                bar: self.bar(measure),
                beat: beat.to_string(),
                counted: counted(&self.piece, measure, beat),
                passes: mark.passes.clone(),
            },
            pedal: mark.letter.to_string(),
            name: super::line::pedal_name(naming, mark.letter, mark.to),
            pins,
        })
    }
}

fn pinned(mark: &Mark, (measure, beat): (u32, Quarters), to: Alteration) -> Pinned {
    Pinned {
        measure,
        beat: beat.to_string(),
        pedal: mark.letter.to_string(),
        to: to.into(),
    }
}

/// A pin that cannot be kept outweighs everything: told apart.
fn without_pins(cost: &Cost) -> u64 {
    cost.total() - cost.pins.price
}

fn differences(now: &Cost, then: &Cost) -> Vec<(String, i64, i64)> {
    let pairs = now.items().into_iter().zip(then.items());
    let more = pairs.filter_map(|((word, now), (_, then))| {
        let count = i64::from(then.count) - i64::from(now.count);
        let price = then.price as i64 - now.price as i64;
        (word != "pins" && (count, price) != (0, 0)).then(|| (word.to_owned(), count, price))
    });
    more.collect()
}
