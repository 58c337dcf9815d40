//! A plan made again after a choice is the plan that would have been made with it. Pieces of our own.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/piece.rs"]
mod piece;

use harp::Harp;
use pedals::{Demand, Pin, Planner, Wishes, plan, replay};
use piece::{Dice, Making, each_twice, piece};
use pitch::{Alteration, Letter};

const MAKING: Making = Making {
    measures: 12,
    tempo: 100,
    chromatic: 8,
    key_lasts: 4,
};

fn pin(dice: &mut Dice, demand: &Demand) -> Pin {
    Pin {
        moment: dice.roll(demand.moments.len() as u64) as usize,
        letter: Letter::ALL[dice.roll(7) as usize],
        alteration: Alteration::ALL[dice.roll(3) as usize],
    }
}

#[track_caller]
fn check(demand: &Demand, wishes: &Wishes, seed: u64, exact: bool) {
    let harp = Harp::named("pedal47").unwrap();
    let mut dice = Dice(seed);
    let mut planner = Planner::new(demand.clone(), harp.clone(), wishes.clone());
    let first = planner.plan();
    assert_eq!(first.cost, plan(demand, &harp, wishes).cost);
    let mut pins = Vec::new();
    for _ in 0..4 {
        pins.push(pin(&mut dice, demand));
        let wishes = Wishes {
            pins: pins.clone(),
            ..wishes.clone()
        };
        let again = planner.choose(&pins);
        let anew = plan(demand, &harp, &wishes);
        assert_eq!(replay(demand, &harp, &wishes, &again), []);
        if exact {
            assert!(again.optimal && anew.optimal);
            assert_eq!(again.cost.total(), anew.cost.total());
        } else {
            // no plan is cheaper than it says
            assert!(anew.cost.total() + again.gap >= again.cost.total());
        }
    }
    // and the choices taken back
    let (back, first) = (planner.choose(&[]).cost.total(), first.cost.total());
    assert!(
        if exact { back == first } else { back <= first },
        "{back} {first}"
    );
}

#[test]
fn without_repeats_it_is_as_exact_as_any() {
    for seed in 0..6 {
        let demand = piece(&MAKING, seed);
        check(&demand, &Wishes::comfortable(), seed, true);
        check(&demand, &Wishes::fewest(&demand), seed, true);
    }
}

#[test]
fn with_movements_only_one_of_them_changes() {
    let mut demand = piece(&MAKING, 3);
    demand.movements = vec![60, 100];
    check(&demand, &Wishes::comfortable(), 3, true);
}

#[test]
fn with_repeats_it_says_how_far_off_it_may_be() {
    let making = Making {
        measures: 8,
        ..MAKING
    };
    for seed in 0..4 {
        let demand = each_twice(&piece(&making, seed), 4);
        let wishes = Wishes {
            work_limit: 2_000_000,
            ..Wishes::comfortable()
        };
        check(&demand, &wishes, seed, false);
    }
}
