//! What a harp cannot do, and what is broken on it. Fixtures of our own.
#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops"
)]

#[path = "made/passage.rs"]
mod passage;

use harp::Harp;
use pedals::{
    Because, Broken, Demand, Feet, Plan, Reason, Remedy, Wishes, plan, replay, surviving_measures,
};
use pitch::{Alteration, Letter, SpelledPitch};

fn piece(moments: &[(u64, &[&str])]) -> Demand {
    Demand {
        moments: passage::of(moments),
        ..Demand::default()
    }
}

fn planned(demand: &Demand, wishes: &Wishes) -> Plan {
    let harp = Harp::named("pedal47").unwrap();
    let plan = plan(demand, &harp, wishes);
    assert_eq!(replay(demand, &harp, wishes, &plan), []);
    assert!(plan.optimal);
    plan
}

#[track_caller]
fn check_cannot(plan: &Plan, expected: &[(&str, Reason)]) {
    let told: Vec<_> = plan
        .cannot
        .iter()
        .map(|c| (c.pitch.to_string(), c.reason))
        .collect();
    let expected: Vec<_> = expected.iter().map(|&(p, r)| (p.to_owned(), r)).collect();
    assert_eq!(told, expected);
}

fn pitch(name: &str) -> SpelledPitch {
    name.parse().unwrap()
}

#[test]
fn low_c_and_d_keep_one_pitch_in_a_movement() {
    let mut demand = piece(&[
        (0, &["Cb1", "Db1"]),
        (1_000_000, &["Cb1", "Db1"]),
        (9_000_000, &["Cn1", "Dn1"]),
        (10_000_000, &["Cn1", "Dn1"]),
        (11_000_000, &["Cn1", "Dn1"]),
    ]);
    let wishes = Wishes::comfortable();
    let one = planned(&demand, &wishes);
    check_cannot(
        &one,
        &[
            ("Cb1", Reason::TunedByKey),
            ("Db1", Reason::TunedByKey),
            ("Cb1", Reason::TunedByKey),
            ("Db1", Reason::TunedByKey),
        ],
    );
    demand.movements = vec![2];
    let two = planned(&demand, &wishes);
    check_cannot(&two, &[]);
    assert_eq!(two.tuned.len(), 3 + 2); // G7 keeps its pitch
    assert_eq!(two.tuned[0].midi, pitch("Cb1").midi());
    assert!(two.tuned.iter().all(|tuned| !tuned.in_a_rest));
}

// All seven pedals change between the movements, in no time and for nothing; within one, they would
// cost and be too slow.
#[test]
fn pedals_are_set_before_a_movement_for_nothing() {
    let flats = ["Cb4", "Db4", "Eb4", "Fb4", "Gb4", "Ab4", "Bb4"];
    let sharps = ["C#4", "D#4", "E#4", "F#4", "G#4", "A#4", "B#4"];
    let mut demand = piece(&[
        (0, &flats),
        (100_000, &flats),
        (200_000, &sharps),
        (300_000, &sharps),
    ]);
    let wishes = Wishes::comfortable();
    assert!(planned(&demand, &wishes).cost.total() > 0);
    demand.movements = vec![2];
    let plan = planned(&demand, &wishes);
    check_cannot(&plan, &[]);
    assert_eq!((plan.changes.len(), plan.cost.total()), (0, 0));
    assert!(plan.optimal);
    assert_eq!(plan.settings[1], all(Alteration::Flat));
    assert_eq!(plan.settings[2], all(Alteration::Sharp));
    let harp = Harp::named("pedal47").unwrap();
    assert_eq!(pedals::fastest_tempo(&demand, &harp, &wishes), None);
    // what she chose holds in the movement in which she chose it
    let pin = pedals::Pin {
        moment: 3,
        letter: Letter::D,
        alteration: Alteration::Flat,
    };
    let chosen = Wishes {
        pins: vec![pin],
        opening: all(Alteration::Flat),
        ..wishes
    };
    let plan = planned(&demand, &chosen);
    assert_eq!(plan.cost.pins.count, 0);
    assert_eq!(plan.settings[3].get(Letter::D), Some(Alteration::Flat));
}

fn all(alteration: Alteration) -> harp::Setting {
    let letters = Letter::ALL.into_iter();
    letters.fold(harp::Setting::default(), |setting, letter| {
        setting.with(letter, alteration)
    })
}

#[test]
fn a_long_rest_lets_a_string_be_retuned() {
    let mut demand = piece(&[(0, &["Cb1"]), (1_000_000, &[]), (21_000_000, &["Cn1"])]);
    demand.moments[1].rest = true;
    let never = Wishes::comfortable();
    assert_eq!(planned(&demand, &never).cannot.len(), 1);
    let retuned = planned(
        &demand,
        &Wishes {
            retune_rest_us: Some(20_000_000),
            ..never.clone()
        },
    );
    check_cannot(&retuned, &[]);
    assert_eq!(retuned.cost.retuned.count, 1);
    let too_short = Wishes {
        retune_rest_us: Some(20_000_001),
        ..never
    };
    assert_eq!(planned(&demand, &too_short).cannot.len(), 1);
}

#[test]
fn what_lies_outside_the_harp_is_told_with_the_nearest_octave() {
    let demand = piece(&[(0, &["C8", "C4"])]);
    let plan = planned(&demand, &Wishes::comfortable());
    check_cannot(&plan, &[("Cn8", Reason::OutsideTheHarp)]);
    let remedies = &plan.cannot[0].remedies;
    assert_eq!(remedies, &[Remedy::Octave(pitch("C7")), Remedy::LeaveOut]);
}

#[test]
fn two_alterations_at_once_are_respelled_where_a_string_allows_it() {
    let demand = piece(&[(0, &["C4", "C#4"])]);
    let plan = planned(&demand, &Wishes::comfortable());
    assert_eq!(plan.respelled.len(), 1);
    assert_eq!(plan.respelled[0].played, pitch("Db4"));
    // G, G sharp and A at once: the only three sounds that no setting has
    let demand = piece(&[(0, &["G4", "G#4", "A4"])]);
    let plan = planned(&demand, &Wishes::comfortable());
    assert_eq!(plan.cannot.len(), 1);
    assert_eq!(plan.cannot[0].reason, Reason::AtOnce);
}

#[test]
fn feet_that_are_too_slow_are_told_apart_from_prices() {
    let notes: [(u64, &[&str]); 3] = [
        (0, &["D4", "A4"]),
        (100_000, &["D#4", "A#4", "Eb4", "Bb4"]),
        (200_000, &["D4", "A4", "G4"]),
    ];
    let demand = piece(&notes);
    let quick = Wishes {
        feet: Feet::with_least_time(0),
        ..Wishes::comfortable()
    };
    check_cannot(&planned(&demand, &quick), &[]);
    // D and E flat respelled suit both; without E and B the feet would have to hurry
    let mut stuck = Wishes::comfortable();
    stuck.broken.stuck = vec![
        (Letter::E, Alteration::Natural),
        (Letter::B, Alteration::Natural),
    ];
    let slow = planned(&demand, &stuck);
    assert!(
        slow.cannot
            .iter()
            .all(|cannot| cannot.reason == Reason::TooFast),
        "{slow:?}"
    );
    assert!(!slow.cannot.is_empty());
}

#[test]
fn a_stuck_pedal_a_dead_disc_and_a_missing_string_are_planned_round() {
    let demand = piece(&[(0, &["F#4"]), (1_000_000, &["F4"]), (2_000_000, &["A4"])]);
    let with = |broken: Broken| {
        let wishes = Wishes {
            broken,
            ..Wishes::comfortable()
        };
        planned(&demand, &wishes)
    };
    // F stuck at sharp: F natural is had as E sharp
    let stuck = with(Broken {
        stuck: vec![(Letter::F, Alteration::Sharp)],
        ..Broken::default()
    });
    assert_eq!(stuck.respelled.len(), 1);
    assert_eq!(stuck.respelled[0].played, pitch("E#4"));
    let dead = with(Broken {
        dead_discs: vec![("F4".parse().unwrap(), Alteration::Sharp)],
        ..Broken::default()
    });
    assert_eq!(dead.respelled[0].played, pitch("Gb4"));
    let missing = with(Broken {
        missing: vec!["A4".parse().unwrap()],
        ..Broken::default()
    });
    check_cannot(&missing, &[("An4", Reason::Broken)]);
    let mut three = demand.clone();
    for (index, moment) in three.moments.iter_mut().enumerate() {
        moment.measure = index as u32 + 1;
    }
    assert_eq!(surviving_measures(&three, &missing), [(1, 1), (2, 1)]);
}

#[test]
fn a_mark_is_followed_or_contradicted_with_a_reason() {
    let mut demand = piece(&[(0, &["D4"]), (1_000_000, &["C#4"]), (2_000_000, &["E4"])]);
    let flat = |letter| harp::Setting::default().with(letter, Alteration::Flat);
    demand.moments[1].marks = flat(Letter::G);
    demand.moments[0].marks = flat(Letter::D);
    let plan = planned(&demand, &Wishes::comfortable());
    assert_eq!(plan.settings[1].get(Letter::G), Some(Alteration::Flat));
    assert_eq!(plan.contradicted.len(), 1);
    assert_eq!(plan.contradicted[0].because, Because::NotesThere);
}

#[test]
fn a_glissando_has_its_whole_setting() {
    let mut demand = piece(&[(0, &["C4"]), (1_000_000, &["Eb4"]), (4_000_000, &["C5"])]);
    let seventh = harp::Setting::from_pairs(&[
        (Letter::C, 0),
        (Letter::D, 1),
        (Letter::E, -1),
        (Letter::F, 1),
        (Letter::G, -1),
        (Letter::A, 0),
        (Letter::B, 1),
    ])
    .unwrap();
    demand.moments[1].glissando = seventh;
    let plan = planned(&demand, &Wishes::comfortable());
    assert_eq!(plan.settings[1], seventh);
}
