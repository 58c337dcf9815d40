//! Repeats: what is played twice is marked once, where that can be. Fixtures of our own.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::Harp;
use pedals::{Demand, Mark, Plan, Quarters, Wishes, plan, replay, written_marks};

/// Measures in playing order, each a quarter a second, each with its notes.
fn piece(measures: &[(u32, &[&str])]) -> Demand {
    let mut demand = Demand::default();
    for &(measure, notes) in measures {
        let pass = 1 + demand
            .moments
            .iter()
            .filter(|m| m.measure == measure && m.beat == Quarters::new(1, 1))
            .count() as u32;
        for (quarter, &note) in notes.iter().enumerate() {
            let mut moment =
                passage::of(&[(1_000_000 * demand.moments.len() as u64, &[note])]).remove(0);
            moment.measure = measure;
            moment.pass = pass;
            moment.beat = Quarters::new(quarter as i64 + 1, 1);
            demand.moments.push(moment);
        }
    }
    demand
}

fn planned(demand: &Demand, same_marks: bool) -> (Plan, Vec<Mark>) {
    let harp = Harp::named("pedal47").unwrap();
    let wishes = Wishes {
        same_marks,
        ..Wishes::comfortable()
    };
    let plan = plan(demand, &harp, &wishes);
    assert_eq!(replay(demand, &harp, &wishes, &plan), []);
    let marks = written_marks(demand, &plan);
    (plan, marks)
}

const ONCE: [&str; 4] = ["G4", "G#4", "A4", "A#4"];

#[test]
fn a_repeat_whose_end_does_not_suit_its_start_is_marked_at_its_start() {
    let demand = piece(&[(1, &ONCE), (1, &ONCE), (2, &["D4", "A4", "G4", "D5"])]);
    let (plan, marks) = planned(&demand, true);
    assert!(plan.cannot.is_empty());
    assert!(marks.iter().all(|mark| !mark.only_then), "{marks:?}");
    assert!(plan.optimal);
    let both: Vec<_> = marks.iter().filter(|mark| mark.passes == [1, 2]).collect();
    assert!(!both.is_empty());
}

#[test]
fn passes_that_need_different_pedals_say_so() {
    // the second time the same written notes come while F is wanted elsewhere
    let mut demand = piece(&[(1, &["F4", "D4"]), (2, &["A4"]), (1, &["F#4", "D4"])]);
    // the same place, other notes: what a second ending entered two ways can do
    demand.moments[3].pass = 2;
    demand.moments[4].pass = 2;
    let mut stuck = Wishes::comfortable();
    stuck.broken.stuck = vec![(pitch::Letter::G, pitch::Alteration::Natural)];
    let plan = plan(&demand, &Harp::named("pedal47").unwrap(), &stuck);
    let marks = written_marks(&demand, &plan);
    assert!(plan.cannot.is_empty());
    assert_eq!(
        plan.cost.passes_differ.count as usize,
        marks.iter().filter(|m| m.only_then).count()
    );
}

#[test]
fn the_price_of_same_marks_is_in_the_gap() {
    let demand = piece(&[(1, &ONCE), (2, &["G#4", "A#4"]), (1, &ONCE), (3, &["D4"])]);
    let (free, _) = planned(&demand, false);
    let (same, marks) = planned(&demand, true);
    assert!(free.cost.total() <= same.cost.total());
    assert!(same.cost.total() - same.gap <= free.cost.total());
    assert!(marks.iter().all(|mark| !mark.only_then), "{marks:?}");
}
