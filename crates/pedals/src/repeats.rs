//! The same marks at every pass of a repeat, where that can be.
//!
//! Every pass is planned as it is played. Where a mark of one pass would be wrong in another, the
//! plan is made again with that pedal held, in all passes, to where it stands in one of them; the
//! plan that loses least, and then has the fewest marks for some passes only, is kept.

use harp::Harp;

use crate::code::place;
use crate::planner::told;
use crate::ready::{Ready, Tie};
use crate::solve::Solved;
use crate::written::{differing, places, written_marks};
use crate::{Demand, Plan, Wishes};

/// How often it is tried.
const ROUNDS: usize = 4;

/// The plan with the fewest marks that hold for some passes only, of those that lose least. Starts
/// from the cheapest, of which nothing is known but its own passes.
pub(crate) fn with_same_marks(
    demand: &Demand,
    harp: &Harp,
    wishes: &Wishes,
    ready: &Ready<'_>,
    solved: &Solved,
) -> Plan {
    let cheapest = told(ready, solved);
    let mut best = billed(demand, wishes, cheapest.clone());
    let mut ties: Vec<Tie> = Vec::new();
    for _ in 0..ROUNDS {
        if best.cost.passes_differ.count == 0 {
            break;
        }
        let mut bettered = false;
        for to_the_mark in [true, false] {
            let tried = [&ties[..], &held(demand, wishes, &best, to_the_mark)].concat();
            let tied = Ready::new(demand, harp, wishes, ready.by_key.clone(), &tried);
            let other = billed(demand, wishes, told(&tied, &tied.solve()));
            if order(&other) < order(&best) {
                best = other;
                ties = tried;
                bettered = true;
                break;
            }
        }
        if !bettered {
            break;
        }
    }
    best.gap = best
        .cost
        .total()
        .saturating_sub(cheapest.cost.total() - cheapest.gap);
    best.optimal = best.gap == 0;
    best
}

/// What is lost comes first, then marks that differ, then the rest.
fn order(plan: &Plan) -> (u64, u32, u64) {
    let cost = &plan.cost;
    let lost = cost.pins.price + cost.lost.price + cost.glissando.price;
    (lost, cost.passes_differ.count, cost.total())
}

fn billed(demand: &Demand, wishes: &Wishes, mut plan: Plan) -> Plan {
    let count = differing(demand, &plan);
    plan.cost.passes_differ.count = count;
    plan.cost.passes_differ.price = u64::from(count) * u64::from(wishes.weights.passes_differ);
    plan
}

/// Every pedal whose mark holds for some passes only, held in all passes where it stands in one.
fn held(demand: &Demand, wishes: &Wishes, plan: &Plan, to_the_mark: bool) -> Vec<Tie> {
    let places = places(demand);
    let price = 8 * u64::from(wishes.weights.moved) + 8 * u64::from(wishes.weights.respelled) + 1;
    let mut ties = Vec::new();
    for mark in written_marks(demand, plan)
        .iter()
        .filter(|mark| mark.only_then)
    {
        let all = places.get(&(mark.measure, mark.beat)).into_iter().flatten();
        let at = if to_the_mark { mark.to } else { mark.from };
        ties.extend(all.map(|&moment| Tie {
            moment,
            letter: mark.letter.index(),
            place: place(at),
            price: price.min(wishes.weights.lost / 2),
        }));
    }
    ties
}
