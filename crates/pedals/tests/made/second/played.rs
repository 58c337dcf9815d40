//! What a plan costs as it is played, place by place, and what another way would.

use harp::Harp;
use pedals::{Demand, Foot, Plan, Wishes};
use pitch::Letter;

use super::heads::{Tuned, head_prices};
use super::places::{Place, places};
use super::{WORTH, place_of};

/// A piece with its prices, its strings without discs tuned as in a plan.
pub(crate) struct Played<'a> {
    wishes: &'a Wishes,
    places: Vec<Place>,
    heads: Vec<Vec<u64>>,
}

impl<'a> Played<'a> {
    pub(crate) fn new(demand: &Demand, harp: &Harp, wishes: &'a Wishes, plan: &Plan) -> Self {
        assert!(plan.tuned.iter().all(|tuned| tuned.from_moment == 0));
        let tuned: Tuned = plan.tuned.iter().map(|t| (t.string, t.midi)).collect();
        Self {
            wishes,
            places: places(demand, wishes),
            heads: head_prices(demand, harp, wishes, &tuned),
        }
    }

    /// The setting at every place, as the plan's changes make it.
    pub(crate) fn told(&self, plan: &Plan) -> Vec<usize> {
        let opening = plan.opening().unwrap();
        let digit = |letter: Letter| {
            let stands = opening.get(letter).unwrap();
            (stands.semitones() + 1) as usize * WORTH[letter.index()]
        };
        let mut code: usize = Letter::ALL.into_iter().map(digit).sum();
        let mut changes = plan.changes.iter().peekable();
        let mut moment = 0;
        let mut stands = Vec::new();
        for place in &self.places {
            if let Some(own) = place.moment {
                moment = own;
            }
            // places between belong to the moment after
            let towards = if place.moment.is_some() {
                moment
            } else {
                moment + 1
            };
            let here = |change: &&pedals::Change| {
                change.moment == towards && (change.at_us <= place.at_us)
            };
            while let Some(change) = changes.next_if(here) {
                let letter = change.letter.index();
                code = code - place_of(code, letter) * WORTH[letter]
                    + (change.to.semitones() + 1) as usize * WORTH[letter];
            }
            stands.push(code);
        }
        assert!(changes.next().is_none());
        stands
    }

    /// What it costs to stand so at every place, each foot taking one pedal at a time; `None` if
    /// the feet cannot.
    pub(crate) fn cost(&self, stands: &[usize]) -> Option<u64> {
        let mut total = self.heads[0][stands[0]];
        let mut last: [Option<u64>; 2] = [None; 2];
        for (index, place) in self.places.iter().enumerate().skip(1) {
            let (before, after) = (stands[index - 1], stands[index]);
            for letter in Letter::ALL.into_iter().filter(|_| before != after) {
                let (from, to) = [before, after]
                    .map(|code| place_of(code, letter.index()))
                    .into();
                let notches = usize::abs_diff(from, to);
                if notches == 0 {
                    continue;
                }
                let last = &mut last[Foot::of(letter) as usize];
                let needs = self.wishes.feet.least_us(notches as u8);
                if last.is_some_and(|last| place.at_us - last < needs) {
                    return None;
                }
                *last = Some(place.at_us);
                total += place.price[letter.index()][notches - 1];
            }
            if let Some(moment) = place.moment {
                total += self.heads[moment][after];
            }
        }
        Some(total)
    }
}

/// One letter at another place for a while.
pub(crate) fn changed(stands: &mut [usize], from: usize, length: usize, letter: usize, to: usize) {
    let until = (from + length).min(stands.len());
    for code in &mut stands[from..until] {
        *code = *code - place_of(*code, letter) * WORTH[letter] + to * WORTH[letter];
    }
}
