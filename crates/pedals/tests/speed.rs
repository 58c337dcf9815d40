//! How long plans take. Only with `SEVENFLATS_LONG`, in a release build; prints what it measured.
#![allow(
    clippy::unwrap_used,
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    reason = "measures time"
)]

#[path = "made/piece.rs"]
mod piece;

use harp::Harp;
use pedals::{Demand, Feet, Wishes, plan};
use piece::{Making, each_twice, piece};

/// Milliseconds that this thread has run, whatever else the machine does.
fn on_processor() -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap();
    let nanoseconds: f64 = told.split(' ').next().unwrap().parse().unwrap();
    nanoseconds / 1e6
}

struct Case {
    measures: u32,
    chromatic: u64,
    key_lasts: u32,
    /// Milliseconds: far above what was measured, for machines that do other things besides.
    at_most: f64,
}

const CASES: [Case; 4] = [
    case(300, 60, 8, 1_000.0),
    case(300, 30, 8, 2_000.0),
    case(300, 12, 4, 4_000.0),
    case(1_000, 30, 8, 6_000.0),
];

const fn case(measures: u32, chromatic: u64, key_lasts: u32, at_most: f64) -> Case {
    Case {
        measures,
        chromatic,
        key_lasts,
        at_most,
    }
}

#[test]
fn long_pieces_are_planned_exactly_and_soon() {
    if std::env::var("SEVENFLATS_LONG").is_err() || cfg!(debug_assertions) {
        return;
    }
    for case in CASES {
        let making = Making {
            measures: case.measures,
            tempo: 110,
            chromatic: case.chromatic,
            key_lasts: case.key_lasts,
        };
        for seed in 1..3 {
            let demand = piece(&making, seed);
            check(&case, "fewest", &demand, &Wishes::fewest(&demand));
            check(&case, "comfortable", &demand, &Wishes::comfortable());
            let half = piece(
                &Making {
                    measures: case.measures / 2,
                    ..making
                },
                seed,
            );
            let twice = each_twice(&half, 16);
            check(
                &case,
                "fewest, each part twice",
                &twice,
                &Wishes::fewest(&twice),
            );
            check(
                &case,
                "comfortable, each part twice",
                &twice,
                &Wishes::comfortable(),
            );
        }
    }
}

fn check(case: &Case, name: &str, demand: &Demand, wishes: &Wishes) {
    let harp = Harp::named("pedal47").unwrap();
    for one_notch_us in [0, 400_000] {
        let wishes = Wishes {
            feet: Feet::with_least_time(one_notch_us),
            ..wishes.clone()
        };
        let begun = on_processor();
        let plan = plan(demand, &harp, &wishes);
        let took = on_processor() - begun;
        println!(
            "{} measures, 1 in {} chromatic, {name}, {one_notch_us} us: {took:.0} ms, {} moved, {} lost, {} respelled, {} differ, work {}, gap {} of {}",
            case.measures,
            case.chromatic,
            plan.changes.len(),
            plan.cannot.len(),
            plan.respelled.len(),
            plan.cost.passes_differ.count,
            plan.work,
            plan.gap,
            plan.cost.total(),
        );
        // with repeats it is told, not promised, how soon marks are proven the same
        let repeats = demand.moments.iter().any(|moment| moment.pass > 1);
        assert!(repeats || plan.optimal, "{}", plan.gap);
        assert!(repeats || took < case.at_most, "{took} ms");
    }
}
