//! What each change of a plan costs by itself.

use crate::account::notches;
use crate::filled::Filled;
use crate::prices::{off_beat_price, ringing_price};
use crate::ringing::ringing;
use crate::{Change, Cost, Demand, Foot, Plan, Strength, Wishes};

/// The price of every change of a plan, item by item, in the plan's order: `moved` and what comes on top of it.
/// Where one foot takes two pedals at once that is put down to the second of them.
pub fn price_of_each(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Vec<Cost> {
    let prices = ChangePrices::of(Filled::of(demand), wishes);
    let mut pairs = 0;
    let changes = plan.changes.iter().map(|change| {
        let mut cost = Cost::default();
        prices.add(change, &mut cost);
        pairs += u32::from(change.together);
        if change.together && pairs.is_multiple_of(2) {
            cost.together.add(u64::from(wishes.weights.together));
        }
        cost
    });
    changes.collect()
}

/// What is to be known of a piece to tell the price of a change.
struct ChangePrices<'a> {
    filled: Filled,
    shares: Vec<[u32; 7]>,
    wishes: &'a Wishes,
}

impl<'a> ChangePrices<'a> {
    fn of(filled: Filled, wishes: &'a Wishes) -> Self {
        let shares = ringing(&filled.demand);
        Self {
            filled,
            shares,
            wishes,
        }
    }

    fn add(&self, change: &Change, cost: &mut Cost) {
        let weights = &self.wishes.weights;
        let moments = &self.filled.demand.moments;
        cost.moved.add(u64::from(weights.moved));
        if notches(change) == 2 {
            cost.two_notches.add(u64::from(weights.two_notches));
        }
        // the last place at that instant which is not past the moment
        let last = self.filled.place[change.moment];
        let back = moments[..=last].iter().rev();
        let place = last
            - back
                .take_while(|moment| moment.at_us > change.at_us)
                .count();
        if moments[place].strength == Strength::Off && !moments[place].rest {
            let price = off_beat_price(&moments[place], self.wishes);
            cost.off_beat.add(u64::from(price));
        }
        let share = self.shares[place][change.letter.index()];
        if share > 0 {
            let price = ringing_price(share, self.wishes);
            cost.ringing.add(u64::from(price));
        }
        if Foot::of(change.letter) != change.foot {
            cost.crossing.add(u64::from(weights.crossing));
        }
    }
}

/// Adds what moving costs to the bill of a plan.
pub(crate) fn add_moves(demand: &Demand, wishes: &Wishes, plan: &mut Plan) {
    for each in price_of_each(demand, wishes, plan) {
        let cost = &mut plan.cost;
        for (sum, item) in [
            (&mut cost.moved, each.moved),
            (&mut cost.two_notches, each.two_notches),
            (&mut cost.off_beat, each.off_beat),
            (&mut cost.ringing, each.ringing),
            (&mut cost.crossing, each.crossing),
            (&mut cost.together, each.together),
        ] {
            sum.count += item.count;
            sum.price += item.price;
        }
    }
}
