//! How fast a piece may go before feet lose notes.

use harp::Harp;

use crate::planner::cheapest;
use crate::solve::playable;
use crate::{Demand, Feet, Weights, Wishes};

/// The highest factor that is tried, in hundredths.
const HIGHEST: u32 = 1_600;

/// The fastest tempo, in hundredths of the one in the demand, at which no more notes are lost than
/// if feet needed no time: 100 is the tempo given, 250 two and a half times as fast. `None` where
/// the feet are no limit even at sixteen times the tempo.
///
/// It is 0 where a foot would have to take two pedals between notes that lie too close for it to be
/// home twice, however slow. Only feet are asked, not hands, nor whether rests still suffice to retune. Where the work
/// allowed runs out at a tempo, that tempo counts as too fast.
pub fn fastest_tempo(demand: &Demand, harp: &Harp, wishes: &Wishes) -> Option<u32> {
    let feet = wishes.feet;
    let wishes = Wishes {
        weights: Weights::fewest(demand),
        feet: at_tempo(feet, 0),
        ..wishes.clone()
    };
    let (ready, timeless) = cheapest(demand, harp, &wishes);
    let lost = wishes.weights.lost;
    let below = (timeless.cost / lost + 1) * lost;
    let plays = |hundredths: u32| {
        let feet = at_tempo(feet, u64::from(hundredths));
        playable(&ready.problem, feet, below, wishes.work_limit)
    };
    if plays(HIGHEST) {
        return None;
    }
    let (mut plays_at, mut too_fast) = (0, HIGHEST);
    let mut next = 100;
    while plays_at + 1 < too_fast {
        if plays(next) {
            plays_at = next;
        } else {
            too_fast = next;
        }
        // outwards first: most pieces are near their own tempo
        next = if too_fast == HIGHEST && plays_at < HIGHEST / 2 {
            2 * plays_at
        } else {
            plays_at.midpoint(too_fast)
        };
    }
    Some(plays_at)
}

/// A piece played faster is the same piece with slower feet.
fn at_tempo(feet: Feet, hundredths: u64) -> Feet {
    Feet {
        one_notch_us: feet.one_notch_us * hundredths / 100,
        two_notches_us: feet.two_notches_us * hundredths / 100,
        ..feet
    }
}
