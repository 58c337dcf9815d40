//! How fast a piece may go. Fixtures of our own.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::Harp;
use pedals::{Demand, Feet, Wishes, fastest_tempo, plan};

fn tempo(moments: &[(u64, &[&str])], one_notch_us: u64) -> Option<u32> {
    let demand = Demand {
        moments: passage::of(moments),
        ..Demand::default()
    };
    let wishes = Wishes {
        feet: Feet::with_least_time(one_notch_us),
        ..Wishes::comfortable()
    };
    let harp = Harp::named("pedal47").unwrap();
    let fastest = fastest_tempo(&demand, &harp, &wishes);
    if let Some(hundredths) = fastest {
        // at that tempo as many sound as without time, a little faster fewer
        let lost = |hundredths: u64| {
            let wishes = Wishes {
                feet: Feet::with_least_time(one_notch_us * hundredths / 100),
                ..Wishes::fewest(&demand)
            };
            plan(&demand, &harp, &wishes).cannot.len()
        };
        assert_eq!(lost(u64::from(hundredths)), lost(0));
        assert!(lost(u64::from(hundredths) + 1) > lost(0));
    }
    fastest
}

#[test]
fn one_foot_that_moves_twice_sets_the_tempo() {
    // G and A, both the right foot's, and no other name for either
    let notes: [(u64, &[&str]); 2] = [
        (0, &["G4", "A4", "D4"]),
        (1_000_000, &["G#4", "A#4", "D4", "B4", "C4"]),
    ];
    // one 0.2 s after the first notes, one at the second: 0.8 s between
    assert_eq!(tempo(&notes, 400_000), Some(200));
}

#[test]
fn without_changes_there_is_no_limit() {
    let notes: [(u64, &[&str]); 2] = [(0, &["G4"]), (1_000, &["A4"])];
    assert_eq!(tempo(&notes, 400_000), None);
}
