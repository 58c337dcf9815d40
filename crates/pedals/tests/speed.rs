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
use pedals::{Feet, Wishes, plan};
use piece::{Making, piece};

/// Milliseconds that this thread has run, whatever else the machine does.
fn on_processor() -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").unwrap();
    let nanoseconds: f64 = told.split(' ').next().unwrap().parse().unwrap();
    nanoseconds / 1e6
}

#[test]
fn plans_come_soon_enough() {
    if std::env::var("SEVENFLATS_LONG").is_err() {
        return;
    }
    let harp = Harp::named("pedal47").unwrap();
    let only = std::env::var("ONLY").ok();
    for (measures, chromatic, key_lasts) in [
        (300, 60, 8),
        (300, 30, 8),
        (300, 12, 4),
        (300, 6, 4),
        (1000, 30, 8),
    ] {
        if only.as_deref().is_some_and(|o| o != format!("{measures}/{chromatic}")) {
            continue;
        }
        let making = Making {
            measures,
            tempo: 110,
            chromatic,
            key_lasts,
        };
        for seed in 1..3 {
            let demand = piece(&making, seed);
            for (name, wishes) in [
                ("fewest", Wishes::fewest(&demand)),
                ("comfortable", Wishes::comfortable()),
            ] {
                for tau in [0, 400_000] {
                    let wishes = Wishes {
                        feet: Feet::with_least_time(tau),
                        ..wishes.clone()
                    };
                    let begun = on_processor();
                    let plan = plan(&demand, &harp, &wishes);
                    let took = on_processor() - begun;
                    println!(
                        "{measures} 1/{chromatic} {name} tau {tau}: {took:.0} ms moves {} lost {} respelled {} gap {} work {}",
                        plan.changes.len(),
                        plan.cannot.len(),
                        plan.respelled.len(),
                        plan.gap,
                        plan.work
                    );
                }
            }
        }
    }
}
