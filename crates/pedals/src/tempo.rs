//! How fast a piece may go before feet lose notes.

mod passages;

use std::cell::Cell;

use harp::Harp;

use crate::movements::movements;
use crate::planner::cheapest;
use crate::solve::playable;
use crate::{Demand, Feet, Weights, Wishes};
use passages::{far_apart, losses, passages};

/// The highest factor that is tried, in hundredths.
const HIGHEST: u32 = 1_600;
/// So far a plan that loses a few notes more is near one that loses none, in hundredths.
const NEAR: u32 = 400;
/// Passages of so many moments are looked at before the whole.
const LENGTHS: [usize; 2] = [64, 256];

/// The fastest tempo, in hundredths of the one in the demand, at which no more notes are lost than
/// if feet needed no time: 100 is the tempo given, 250 two and a half times as fast. `None` where
/// the feet are no limit even at sixteen times the tempo.
///
/// It is 0 where a foot would have to take two pedals between notes that lie too close for it to be
/// home twice, however slow. Only feet are asked, not hands, nor whether rests still suffice to retune. Where the work
/// allowed runs out at a tempo, that tempo counts as too fast.
pub fn fastest_tempo(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Option<u32> {
    let movements = movements(demand, wishes);
    if movements.is_empty() {
        return of_one(demand, harp, wishes);
    }
    let share = wishes.work_limit / movements.len() as u64;
    let each = movements.into_iter().filter_map(|mut movement| {
        movement.wishes.work_limit = share;
        of_one(&movement.demand, harp, &movement.wishes)
    });
    each.min()
}

fn of_one(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Option<u32> {
    let feet = wishes.feet;
    let wishes = Wishes {
        weights: Weights::fewest(demand),
        feet: at_tempo(feet, 0),
        ..wishes.clone()
    };
    let (ready, timeless) = cheapest(demand, harp, &wishes);
    let work = Cell::new(wishes.work_limit.saturating_sub(timeless.work));
    let lost = wishes.weights.lost;
    let problem = &ready.problem;
    let below = (timeless.cost / lost + 1) * lost;
    let plays = |hundredths: u32| {
        let feet = at_tempo(feet, u64::from(hundredths));
        let is_near = hundredths <= NEAR;
        playable(problem, feet, below, &work, is_near)
    };
    let losses = losses(problem, lost);
    let mut most = HIGHEST;
    // a stuck pedal loses more than moments do alone: then passages tell nothing
    if losses.iter().sum::<u64>() == timeless.cost / lost {
        let longer = LENGTHS.map(|long| passages(problem, &losses, long));
        for passage in longer.iter().flat_map(|all| far_apart(all)) {
            let plays =
                |hundredths: u32| passage.plays(at_tempo(feet, u64::from(hundredths)), &work);
            if !plays(most) {
                most = fastest_below(most, plays);
            }
        }
    }
    let fastest = if plays(most) {
        most
    } else {
        fastest_below(most, plays)
    };
    (fastest < HIGHEST).then_some(fastest)
}

/// The fastest tempo that plays, one being known that does not; 0 if none does.
fn fastest_below(too_fast: u32, plays: impl Fn(u32) -> bool) -> u32 {
    let (mut plays_at, mut too_fast) = (0, too_fast);
    // most pieces are near their own tempo
    let mut next = 100;
    while plays_at + 1 < too_fast {
        if next >= too_fast || next <= plays_at {
            next = plays_at.midpoint(too_fast);
        }
        if plays(next) {
            plays_at = next;
            next *= 2;
        } else {
            too_fast = next;
        }
    }
    plays_at
}

/// A piece played faster is the same piece with slower feet.
fn at_tempo(feet: Feet, hundredths: u64) -> Feet {
    Feet {
        one_notch_us: feet.one_notch_us * hundredths / 100,
        two_notches_us: feet.two_notches_us * hundredths / 100,
        ..feet
    }
}
