//! Plans of whole pieces, changed at random thousands of times: no change makes one cheaper.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/judge.rs"]
mod judge;
#[path = "made/passage.rs"]
mod passage;
#[path = "made/piece.rs"]
mod piece;

use harp::Harp;
use judge::{Places, notes, price_of_move};
use pedals::{Demand, Foot, Wishes, plan};
use piece::{Dice, Making, piece};
use pitch::Letter;

/// What a way of standing at every moment costs, each pedal moved at the moment itself; `None` if
/// the feet cannot.
fn cost(demand: &Demand, wishes: &Wishes, stands: &[Places]) -> Option<u64> {
    let mut total = notes(demand, wishes, 0, &stands[0]);
    let mut last: [Option<u64>; 2] = [None; 2];
    for moment in 1..stands.len() {
        let now = demand.moments[moment].at_us;
        for letter in Letter::ALL {
            let at = |moment: usize| stands[moment][letter.index()];
            let notches = (at(moment) - at(moment - 1)).abs();
            if notches == 0 {
                continue;
            }
            let foot = Foot::of(letter);
            let needs = wishes.feet.least_us(notches as u8);
            let last = &mut last[foot as usize];
            if last.is_some_and(|last| now - last < needs) {
                return None;
            }
            *last = Some(now);
            total += price_of_move(demand, wishes, moment, letter, foot, notches);
        }
        total += notes(demand, wishes, moment, &stands[moment]);
    }
    Some(total)
}

#[track_caller]
fn check(making: &Making, seed: u64, wishes: impl Fn(&Demand) -> Wishes) {
    let demand = piece(making, seed);
    let wishes = Wishes {
        any_octave: true,
        ..wishes(&demand)
    };
    let plan = plan(&demand, &Harp::named("pedal47").unwrap(), &wishes);
    assert!(plan.optimal);
    let place = |setting: &harp::Setting, letter| setting.get(letter).unwrap().semitones();
    let told: Vec<Places> = plan
        .settings
        .iter()
        .map(|setting| Letter::ALL.map(|letter| place(setting, letter)))
        .collect();
    assert_eq!(cost(&demand, &wishes, &told), Some(plan.cost.total()));
    let mut dice = Dice(seed + 1_000);
    let mut tried = 0;
    for _ in 0..passage::cases(500) {
        let mut stands = told.clone();
        for _ in 0..=dice.roll(2) {
            let from = dice.roll(stands.len() as u64) as usize;
            let to = (from + 1 + dice.roll(40) as usize).min(stands.len());
            let letter = dice.roll(7) as usize;
            let place = dice.roll(3) as i8 - 1;
            for stand in &mut stands[from..to] {
                stand[letter] = place;
            }
        }
        if let Some(cost) = cost(&demand, &wishes, &stands) {
            tried += usize::from(stands != told);
            assert!(cost >= plan.cost.total(), "{cost} after {tried} changes");
        }
    }
    assert!(tried > 50, "only {tried} changes could be played");
}

#[test]
fn no_random_change_makes_a_plan_cheaper() {
    for (seed, chromatic) in [(1, 40), (2, 15), (3, 6)] {
        // sixteenths at 80 lie less than 0.2 s apart: the planner adds no places between them
        let making = Making {
            measures: 12,
            tempo: 80,
            chromatic,
            key_lasts: 4,
        };
        check(&making, seed, Wishes::fewest);
        check(&making, seed, |_| Wishes::comfortable());
    }
}
