//! Plans of short passages against values found outside this project by exhaustive search.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

use harp::Harp;
use pedals::{Attack, Demand, Feet, Moment, Plan, Spelling, Wishes, plan};

/// One note a quarter of a second, the feet needing no time.
fn passage(notes: &[&str]) -> Demand {
    let mut moments = Vec::new();
    for (index, note) in notes.iter().enumerate() {
        moments.push(Moment {
            at_us: 250_000 * index as u64,
            attacks: vec![Attack::of(note.parse().unwrap())],
            ..Moment::empty()
        });
    }
    Demand {
        moments,
        ..Demand::default()
    }
}

fn fewest(notes: &[&str], spelling: Spelling) -> Plan {
    let demand = passage(notes);
    let wishes = Wishes {
        feet: Feet::with_least_time(0),
        any_octave: true,
        spelling,
        ..Wishes::fewest(&demand)
    };
    plan(&demand, &Harp::named("pedal47").unwrap(), &wishes)
}

#[track_caller]
fn check(notes: &[&str], spelling: Spelling, moves: usize) {
    let plan = fewest(notes, spelling);
    assert!(plan.optimal);
    assert_eq!(plan.cannot, []);
    assert_eq!(plan.changes.len(), moves);
}

const CHROMATIC: [&str; 12] = [
    "C4", "C#4", "D4", "D#4", "E4", "F4", "F#4", "G4", "G#4", "A4", "A#4", "B4",
];

#[test]
fn a_chromatic_scale_takes_five_moves_and_twice_ten() {
    check(&CHROMATIC, Spelling::Free, 5);
    let twice = [CHROMATIC, CHROMATIC].concat();
    check(&twice, Spelling::Free, 10);
    check(&twice, Spelling::Written, 15);
}

#[test]
fn c_and_c_sharp_in_turn_take_none_respelled_and_seven_written() {
    let turns = ["C4", "C#4"].repeat(4);
    check(&turns, Spelling::Free, 0);
    check(&turns, Spelling::Written, 7);
}
