//! What is set between movements, pedal by pedal, for whoever goes through a plan change by change.

use pitch::Letter;

use crate::account::notches;
use crate::{Change, Demand, Feet, Foot, Plan};

/// The pedals that stand elsewhere when a movement begins than when the one before ended, in the order in which they are
/// made. The clock of a piece knows no pause: the last move of each foot is home with the movement's first note, each
/// other one as much sooner as the foot needs.
pub fn set_between(demand: &Demand, plan: &Plan, feet: &Feet) -> Vec<Change> {
    let firsts = demand.movements.iter().copied();
    firsts
        .flat_map(|first| before(demand, plan, feet, first))
        .collect()
}

fn before(demand: &Demand, plan: &Plan, feet: &Feet, first: usize) -> Vec<Change> {
    let ended = first
        .checked_sub(1)
        .and_then(|last| plan.settings.get(last));
    let (Some(ended), Some(begins)) = (ended, plan.settings.get(first)) else {
        return Vec::new();
    };
    let Some(moment) = demand.moments.get(first) else {
        return Vec::new();
    };
    let mut all = Vec::new();
    for foot in [Foot::Right, Foot::Left] {
        let mut at_us = moment.at_us;
        let pedals = Letter::ALL
            .into_iter()
            .filter(|&letter| Foot::of(letter) == foot);
        for letter in pedals {
            let (Some(from), Some(to)) = (ended.get(letter), begins.get(letter)) else {
                continue;
            };
            if from == to {
                continue;
            }
            let change = Change {
                moment: first,
                at_us,
                foot,
                letter,
                from,
                to,
                together: false,
            };
            at_us = at_us.saturating_sub(feet.least_us(notches(&change)));
            all.push(change);
        }
    }
    all.sort_by_key(|change| (change.at_us, change.foot == Foot::Left));
    all
}
