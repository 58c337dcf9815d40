//! Whole pieces of our own, and random passages with places between the notes, reckoned a second
//! way: both find the same sum.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;
#[path = "made/piece.rs"]
mod piece;
#[path = "made/second.rs"]
mod second;

use harp::{Harp, Setting};
use passage::{Changed, passages, weights, wishes};
use pedals::{Demand, Feet, Wishes, plan};
use piece::{Making, piece};
use proptest::prelude::*;

#[track_caller]
fn check(demand: &Demand, wishes: &Wishes) {
    let harp = Harp::named("pedal47").unwrap();
    let plan = plan(demand, &harp, wishes);
    assert!(plan.optimal, "{}", plan.gap);
    assert_eq!(plan.cost.total(), second::cheapest(demand, &harp, wishes));
}

#[test]
fn pieces_of_our_own_have_the_same_sum() {
    for (seed, tempo, chromatic) in [(1, 60, 20), (2, 100, 6), (3, 132, 10)] {
        let making = Making {
            measures: passage::cases(2) / 2 + 2,
            tempo,
            chromatic,
            key_lasts: 2,
        };
        let demand = piece(&making, seed);
        for one_notch_us in [0, 400_000] {
            let feet = Feet::with_least_time(one_notch_us);
            for wishes in [Wishes::fewest(&demand), Wishes::comfortable()] {
                check(&demand, &Wishes { feet, ..wishes });
            }
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(passage::cases(8)))]

    #[test]
    fn passages_have_the_same_sum(
        demand in passages(10, 900_000),
        change in wishes(),
        weights in proptest::option::of(weights()),
    ) {
        let change = Changed { opening: Setting::default(), stuck: None, pin: None, ..change };
        let mut wishes = change.on(&demand);
        wishes.weights = weights.unwrap_or(wishes.weights);
        check(&demand, &wishes);
    }
}
