//! Sounds that must give no A, or none but the right one.

use std::f64::consts::TAU;

use pitch::cents;
use signal::{HeldError, ListenError};
use tuning::round::{HearError, HeldEar, TakeError};

use crate::sounds::{Row, VOICES, Voice, note, with_noise};
use crate::{add, hear, tempered};

const RATE: u32 = 48_000;

fn refused(sound: &[f64]) -> HearError {
    refused_as("A4", sound)
}

#[track_caller]
fn refused_as(named: &str, sound: &[f64]) -> HearError {
    match hear(named, sound, RATE).take_the_a() {
        Err(error) => error,
        Ok(taken) => panic!("{named}: {taken:?}"),
    }
}

/// Sound of a phase that is given, in turns, with six partials.
fn sung(turns: impl Fn(f64) -> f64) -> Vec<f64> {
    (0..4 * RATE)
        .map(|i| turns(f64::from(i) / f64::from(RATE)))
        .map(|x| {
            (1..=6)
                .map(|n| 0.1 / f64::from(n) * (TAU * f64::from(n) * x).sin())
                .sum()
        })
        .collect()
}

#[test]
fn a_slide_is_unsteady() {
    for hz_a_second in [3.0, 10.0, -8.0, 25.0] {
        let error = refused(&sung(|t| 440.0 * t + hz_a_second * (t - 2.0) * t / 2.0));
        assert!(
            matches!(error, HearError::Take(TakeError::Unsteady { .. })),
            "{hz_a_second}: {error}"
        );
    }
}

#[test]
fn silence_and_noise_are_not_heard() {
    assert_eq!(refused(&vec![0.0; 4 * 48_000]), HearError::NotHeard);
    for (seed, pink) in [(1, false), (2, true), (3, false), (4, true)] {
        let faint = vec![1e-9; 4 * 48_000];
        let noise = with_noise(&faint, -160.0, pink, seed);
        for named in ["A4", "C4", "A2"] {
            assert_eq!(refused_as(named, &noise), HearError::NotHeard, "{seed}");
        }
    }
}

#[test]
fn somebody_who_speaks_gives_no_a() {
    // voiced syllables of a fifth of a second that glide, about 120 and 220 Hz, hisses between them
    for (seed, about) in [(1, 120.0), (2, 220.0), (3, 180.0), (4, 210.0), (5, 146.0)] {
        let mut row = Row(seed);
        let (mut turn, mut hz, mut slide) = (0.0f64, about, 0.0);
        let sound: Vec<f64> = (0..4 * RATE)
            .map(|i| {
                let syllable = i % (RATE / 5);
                if syllable == 0 {
                    hz = about * (1.0 + 0.15 * row.next());
                    slide = 0.8 * about * row.next() / f64::from(RATE);
                }
                hz += slide;
                turn += hz / f64::from(RATE);
                let voiced: f64 = (1..=12)
                    .map(|n| (TAU * f64::from(n) * turn).sin() / f64::from(n))
                    .sum();
                if syllable < RATE / 7 {
                    0.1 * voiced
                } else {
                    0.03 * row.next()
                }
            })
            .collect();
        refused(&sound);
    }
}

/// Ten notes beside an A4 of 441, `gain` as strong, four instruments: how many give an A, and none but the right one.
fn taken_beside(gain: f64) -> usize {
    let others = [
        "E5", "D4", "D5", "E4", "G4", "Bb4", "G#4", "B4", "C#5", "F4",
    ];
    let mut taken = 0;
    for (k, other) in others.into_iter().enumerate() {
        for voice in [Voice::Oboe, Voice::Violin, Voice::Organ, Voice::Flute] {
            let a = note(voice, 441.0, 3.6, RATE, k as u64);
            let b = note(voice, tempered(other, 441.0), 3.6, RATE, 50 + k as u64);
            if let Ok(a) = hear("A4", &add(&a, &b, gain), RATE).take_the_a() {
                taken += 1;
                let off = cents(441.0, a.heard_hz).abs();
                // a partial that meets one of the note's own is in no interval
                let bound = (2.0 * a.u95_cents).max(1.0);
                assert!(off < bound, "{voice:?} {other} {gain}: {a:?}");
            }
        }
    }
    taken
}

#[test]
fn of_two_notes_as_loud_as_each_other_none_but_the_right_a_is_taken() {
    let taken = [1.0, 0.6, 0.4].map(taken_beside);
    // two alike are refused; one four tenths as strong does not matter
    assert!(taken[0] <= 4 && taken[2] >= 36, "{taken:?}");
}

#[test]
fn another_note_alone_is_not_taken_for_the_a() {
    for voice in VOICES {
        for other in ["D3", "F2", "D4", "E4", "E5", "A5", "E6", "C#7"] {
            let sound = note(voice, tempered(other, 440.0), 3.6, RATE, 11);
            let heard = hear("A4", &sound, RATE).take_the_a();
            assert!(heard.is_err(), "{voice:?} {other}: {heard:?}");
        }
        let two = add(
            &note(voice, tempered("D4", 440.0), 3.6, RATE, 12),
            &note(voice, tempered("E5", 440.0), 3.6, RATE, 13),
            1.0,
        );
        let heard = hear("A4", &two, RATE).take_the_a();
        assert!(heard.is_err(), "{voice:?} D4 with E5: {heard:?}");
    }
}

#[test]
fn an_a_an_octave_lower_is_refused_or_the_same_a() {
    for voice in VOICES {
        let sound = note(voice, 220.5, 3.6, RATE, 14);
        if let Ok(a) = hear("A4", &sound, RATE).take_the_a() {
            assert!(cents(441.0, a.heard_hz).abs() < 1.6, "{voice:?} {a:?}");
        }
    }
}

#[test]
fn an_a_that_nobody_tunes_to_is_told_as_such() {
    for hz in [375.0, 486.0] {
        let error = refused(&note(Voice::Organ, hz, 3.6, RATE, 1));
        assert!(
            matches!(error, HearError::Take(TakeError::OutOfRange { .. })),
            "{hz}: {error}"
        );
    }
}

#[test]
fn less_than_three_seconds_are_too_short() {
    let error = refused(&note(Voice::Oboe, 440.0, 2.5, RATE, 1));
    match error {
        HearError::HeldTooShort { held_s } => assert!((held_s - 2.5).abs() < 0.2, "{held_s}"),
        other => panic!("{other}"),
    }
}

#[test]
fn impossible_rates_and_notes_are_named() {
    let error = |rate, named: &str| HeldEar::new(rate, named.parse().unwrap()).err();
    let rate = ListenError::Rate { rate_hz: 4_000 };
    assert_eq!(error(4_000, "A4"), Some(HeldError::Listen(rate)));
    assert!(matches!(error(8_000, "C8"), Some(HeldError::Pitch { .. })));
}
