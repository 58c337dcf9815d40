//! Equal temperament, cents and beats against published tables and exact arithmetic.

use std::collections::BTreeMap;

use pitch::{Alteration, Letter, ReferencePitch, SpelledPitch, beats_between, cents, hz_of_cents};

use crate::cases::{Case, check};

#[test]
fn equal_temperament_cents_and_beats_give_the_published_figures() {
    check("pitch-arithmetic", law);
}

fn law(case: &Case) -> Option<Vec<f64>> {
    let reference = || ReferencePitch::new(case.get("a4_hz")).unwrap();
    let hz = |name: &str| reference().hz(name.parse().unwrap());
    Some(match case.law.as_str() {
        "cents of reference pitches above 440 Hz" => case
            .list("hz")
            .into_iter()
            .map(|hz| cents(440.0, hz))
            .collect(),
        "hertz of pitches" => case.texts("pitches").into_iter().map(hz).collect(),
        "hertz of one cent" => case
            .texts("pitches")
            .into_iter()
            .map(|name| hz_of_cents(hz(name), 1.0))
            .collect(),
        "cents of a tolerance in hertz" => {
            let (hz, tolerance) = (case.get("hz"), case.get("tolerance_hz"));
            vec![(cents(hz - tolerance, hz) + cents(hz, hz + tolerance)) / 2.0]
        }
        "beats of intervals in equal temperament" => {
            let beats = |interval: &str| {
                let (low, high) = interval.split_once(' ').unwrap();
                beats_between(hz(low), hz(high)).unwrap().per_s
            };
            case.texts("intervals").into_iter().map(beats).collect()
        }
        "sounds with two names and with one" => names_of_sounds(&case.texts("single")),
        "pure fifths" => {
            let over = cents(2.0, 3.0) - 700.0;
            let third = cents(5.0 / 4.0, 81.0 / 64.0);
            vec![over, case.get("fifths") * over, third]
        }
        _ => return None,
    })
}

/// How many sounds of an octave have two of the 21 names, and how many one (which must be these).
fn names_of_sounds(single: &[&str]) -> Vec<f64> {
    let mut names: BTreeMap<i32, Vec<SpelledPitch>> = BTreeMap::new();
    for letter in Letter::ALL {
        for alteration in Alteration::ALL {
            let pitch = SpelledPitch::new(letter, alteration, 4);
            names
                .entry(pitch.midi().rem_euclid(12))
                .or_default()
                .push(pitch);
        }
    }
    let alone: Vec<SpelledPitch> = names
        .values()
        .filter(|names| names.len() == 1)
        .map(|names| names[0])
        .collect();
    let single: Vec<SpelledPitch> = single.iter().map(|name| name.parse().unwrap()).collect();
    assert_eq!(alone, single);
    let twice = names.values().filter(|names| names.len() == 2).count();
    vec![twice as f64, alone.len() as f64]
}
