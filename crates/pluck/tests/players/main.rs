//! What every made-up player must do: play, in the order of time, and leave each string where her script says.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a script that cannot be played must fail the test"
)]

mod mishaps;

use harp::{Harp, Setup, Standing};
use pitch::{Letter, ReferencePitch};
use pluck::player::{
    Aside, Mishaps, Script, beginner, lever_harp, moved_to, new_string, professional, whole_harp,
};
use pluck::{Event, Plucked, RoundError, What};

const ALL: Mishaps = Mishaps {
    pedal_down: Some(Letter::F),
    wrong_octave: true,
    other_pin: true,
    passed: true,
    interrupted: true,
};

fn pedal_harp(a4_hz: f64) -> Vec<Standing> {
    let setup = Setup::open(ReferencePitch::new(a4_hz).unwrap());
    Harp::named("pedal47").unwrap().standing(&setup).unwrap()
}

fn lever_harp34() -> Vec<Standing> {
    let setup = Setup::open(ReferencePitch::A440);
    Harp::named("lever34").unwrap().standing(&setup).unwrap()
}

/// All strings from F4 down to the lowest, then from G4 up.
fn order(harp: &[Standing]) -> Vec<String> {
    let names: Vec<String> = harp.iter().map(|s| s.string.to_string()).collect();
    let middle = names.iter().position(|n| n == "F4").unwrap() + 1;
    let (down, up) = names.split_at(middle);
    down.iter().rev().chain(up).cloned().collect()
}

fn players(seed: u64) -> Vec<Script> {
    let (pedals, levers) = (pedal_harp(440.0), lever_harp34());
    let (all, few) = (order(&pedals), order(&levers));
    let to = ReferencePitch::new(442.0).unwrap();
    vec![
        whole_harp(&pedals, &all, seed).unwrap(),
        professional(&pedals, &all, seed).unwrap(),
        beginner(&pedals, &all[..16], ALL, seed).unwrap(),
        beginner(&pedals, &all[..2], ALL, seed).unwrap(),
        beginner(&pedals, &all[..1], ALL, seed).unwrap(),
        lever_harp(&levers, &few, "A4", seed).unwrap(),
        moved_to(&pedal_harp(442.0), &all, to, seed).unwrap(),
        new_string(&pedals, &all[..9], "D4", seed).unwrap(),
        new_string(&pedals, &["D4"], "D4", seed).unwrap(),
        whole_harp(&pedals, &[""; 0], seed).unwrap(),
    ]
}

/// What the script's visits and the truth of its plucks say of each other.
fn check(script: &Script) {
    let events = &script.round.events;
    assert!(events.windows(2).all(|two| two[0].at_s <= two[1].at_s));
    let visits = &script.visits;
    assert!(visits.windows(2).all(|two| two[0].until_s <= two[1].from_s));
    let truth = script.round.perform().unwrap().truth().to_vec();
    for visit in visits {
        let left = script.round.off_cents_at(&visit.string, visit.until_s);
        assert!(
            (left.unwrap() - visit.left_cents).abs() < 1e-9,
            "{visit:?}: {left:?}"
        );
        let inside = |p: &&Plucked| {
            p.string == visit.string && (visit.from_s - 0.001..visit.until_s).contains(&p.at_s)
        };
        let last = truth.iter().rfind(inside).unwrap();
        assert!(
            (last.off_cents() - visit.left_cents).abs() < 1e-6,
            "{visit:?}: plucked at {}",
            last.off_cents()
        );
    }
    for pluck in &truth {
        let stands = script.round.off_cents_at(&pluck.string, pluck.at_s);
        assert!((pluck.off_cents() - stands.unwrap()).abs() < 0.05); // a pluck waits for its step of 32 samples
    }
}

fn plucks<'a>(script: &'a Script, string: &str) -> Vec<&'a Event> {
    let theirs = |e: &&Event| matches!(&e.what, What::Pluck { string: s, .. } if s == string);
    script.round.events.iter().filter(theirs).collect()
}

fn turns<'a>(script: &'a Script, string: &str) -> Vec<&'a Event> {
    let theirs = |e: &&Event| matches!(&e.what, What::Turn { string: s, .. } if s == string);
    script.round.events.iter().filter(theirs).collect()
}

fn middle(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

fn lasted(script: &Script) -> Vec<f64> {
    let visits = script.visits.iter();
    visits.map(|v| v.until_s - v.from_s).collect()
}

#[test]
fn every_player_does_what_the_script_says() {
    for seed in 0..20 {
        players(seed).iter().for_each(check);
    }
}

#[test]
fn equal_seeds_give_equal_scripts_and_others_do_not() {
    assert_eq!(players(3), players(3));
    for (one, other) in players(3).iter().zip(players(4)) {
        assert_ne!(one.round.strings, other.round.strings);
    }
}

#[test]
fn every_player_can_be_heard() {
    for mut script in players(1) {
        let plays = !script.visits.is_empty();
        script.round.seconds = 4.0;
        script.round.events.retain(|e| e.at_s < 4.0);
        let samples = script.round.samples().unwrap();
        assert_eq!(samples.len(), 192_000);
        assert!(samples.iter().all(|x| x.is_finite() && x.abs() < 1.0));
        let loud = samples.iter().fold(0f32, |peak, x| peak.max(x.abs()));
        assert_eq!(loud > 0.02, plays, "{loud}");
    }
}

#[test]
fn a_whole_harp_comes_up_from_twenty_cents_down() {
    let harp = pedal_harp(440.0);
    for seed in 0..5 {
        let script = whole_harp(&harp, &order(&harp), seed).unwrap();
        let start = script.round.strings.iter().map(|s| s.off_cents).collect();
        assert!((middle(start) + 18.0).abs() < 4.0);
        assert!((4.0..6.0).contains(&middle(lasted(&script))));
        assert!(script.visits.iter().filter(|v| v.settled).count() >= 43);
        for v in &script.visits {
            assert!((1..=4).contains(&plucks(&script, &v.string).len()));
            let turned = !turns(&script, &v.string).is_empty();
            assert!(!v.settled || v.left_cents.abs() <= if turned { 2.0 } else { 3.0 });
        }
    }
}

#[test]
fn a_professional_plucks_twice_and_takes_five_seconds() {
    let harp = pedal_harp(440.0);
    let script = professional(&harp, &order(&harp), 1).unwrap();
    let near = |s: &&pluck::RoundString| s.off_cents.abs() < 8.0;
    assert!(script.round.strings.iter().filter(near).count() > 38);
    assert!(lasted(&script).iter().all(|s| (4.5..5.5).contains(s)));
    let names = script.visits.iter().map(|v| &v.string);
    assert!(names.clone().all(|name| plucks(&script, name).len() == 2));
    assert!(script.visits.iter().all(|v| v.left_cents.abs() < 4.0));
}

#[test]
fn a_lever_comes_off_and_its_string_drops_a_semitone() {
    let harp = lever_harp34();
    let script = lever_harp(&harp, &order(&harp), "A4", 1).unwrap();
    let [Aside::LeverOff { at_s, string }] = script.asides.as_slice() else {
        panic!("{:?}", script.asides);
    };
    let stands = |at_s| script.round.off_cents_at(string, at_s).unwrap();
    assert!((stands(0.0) - stands(at_s + 0.02) - 100.0).abs() < 1e-9);
    assert_eq!((stands(0.0), string.as_str()), (stands(*at_s), "A4"));
    let left = script.visits.iter().find(|v| v.string == "A4").unwrap();
    assert!(left.left_cents.abs() < 5.0);
    let never = lever_harp(&harp, &["F4"], "A4", 1).unwrap();
    assert!(never.asides.is_empty() && never.round.off_cents_at("A4", 99.0).unwrap() > 70.0);
}

#[test]
fn a_harp_at_440_stands_eight_cents_down_at_442() {
    let harp = pedal_harp(442.0);
    let to = ReferencePitch::new(442.0).unwrap();
    let script = moved_to(&harp, &order(&harp), to, 1).unwrap();
    let start = script.round.strings.iter().map(|s| s.off_cents);
    // 1200·log₂(440/442) = −7.851.
    assert!((start.clone().sum::<f64>() / 47.0 + 7.851).abs() < 0.5);
    assert!(start.clone().all(|off| (off + 7.851).abs() < 4.0));
    assert!(script.visits.iter().all(|v| v.left_cents.abs() < 4.0));
}

#[test]
fn a_new_string_climbs_and_sinks_between_its_visits() {
    let harp = pedal_harp(440.0);
    for seed in 0..10 {
        let script = new_string(&harp, &order(&harp)[..9], "D4", seed).unwrap();
        assert_eq!(script.round.off_cents_at("D4", 0.5), Some(-500.0));
        let visits: Vec<_> = script.visits.iter().filter(|v| v.string == "D4").collect();
        assert_eq!((visits.len(), script.visits.len()), (3, 11));
        let first = turns(&script, "D4");
        let first = first.iter().filter(|e| e.at_s < visits[0].until_s).count();
        assert!((5..=8).contains(&first), "{first} turns");
        for (aside, two) in script.asides.iter().zip(visits.windows(2)) {
            let Aside::Sinking { until_s, cents, .. } = aside else {
                panic!("{aside:?}");
            };
            let then = script.round.off_cents_at("D4", *until_s).unwrap();
            assert!((two[0].left_cents - cents - then).abs() < 1e-9);
            assert!((10.0..25.0).contains(cents) && *until_s <= two[1].from_s);
        }
    }
}

#[test]
fn a_string_that_is_not_there_is_named() {
    let harp = pedal_harp(440.0);
    let unknown = Err(RoundError::UnknownString {
        name: "H4".to_owned(),
    });
    assert_eq!(whole_harp(&harp, &["H4"], 1), unknown);
    assert_eq!(lever_harp(&harp, &["F4"], "H4", 1), unknown);
    assert_eq!(new_string(&harp, &["F4"], "H4", 1), unknown);
}
