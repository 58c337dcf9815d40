//! A held note followed: tones made by the formula itself, so that their pitch is known exactly.
//!
//! Stretched partials obey Fletcher's law (JASA 36, 1964): f_n = n·f0·√(1+B·n²).
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::f64::consts::TAU;

use proptest::prelude::*;
use signal::{Held, HeldError, HeldNote, ListenError};

const REACH: (f64, f64) = (260.0, 160.0);

/// Partials of these strengths over `hz` (its first, sounding or not) and stiffness `b`, with faint noise of a fixed row.
fn tone(strengths: &[f64], hz: f64, b: f64, seconds: f64, rate: u32) -> Vec<f32> {
    let mut x = 3u64;
    (0..(seconds * f64::from(rate)) as usize)
        .map(|i| {
            x = x
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let noise = (x >> 40) as f64 / f64::from(1 << 23) - 1.0;
            let t = i as f64 / f64::from(rate);
            let sound: f64 = (1..)
                .zip(strengths)
                .map(|(n, a)| {
                    let n = f64::from(n);
                    let f = n * hz * ((1.0 + b * n * n) / (1.0 + b)).sqrt();
                    if f < 0.48 * f64::from(rate) {
                        0.1 * a * (TAU * f * t + n * n).cos()
                    } else {
                        0.0
                    }
                })
                .sum();
            (sound + 1e-3 * noise) as f32
        })
        .collect()
}

fn follow(about_hz: f64, sound: &[f32], rate: u32) -> Vec<Held> {
    HeldNote::new(rate, about_hz, REACH).unwrap().push(sound)
}

/// Follows a tone and holds every estimate to `within` cents and to its own interval.
#[track_caller]
fn check(strengths: &[f64], about_hz: f64, hz: f64, b: f64, rate: u32, within: f64) {
    let held = follow(about_hz, &tone(strengths, hz, b, 2.0, rate), rate);
    assert!(held.len() >= 10, "{hz} Hz: {} estimates", held.len());
    let mut at_s = 0.0;
    for h in held {
        let off = 1200.0 * (h.hz / hz).log2();
        assert!(
            off.abs() < within && off.abs() < 1.5 * h.u95_cents,
            "{hz} Hz, {rate}: {off:.3} of {h:?}"
        );
        assert!(h.at_s > at_s && h.at_s < 2.0, "{h:?}");
        at_s = h.at_s;
    }
}

const FULL: [f64; 8] = [1.0, 0.7, 0.5, 0.4, 0.3, 0.2, 0.2, 0.1];

#[test]
fn a_full_tone_is_followed_to_a_fifth_of_a_cent_wherever_it_stands_in_reach() {
    for hz in [380.0, 392.0, 415.3, 430.0, 440.0, 445.3, 466.2, 480.0] {
        check(&FULL, 440.0, hz, 0.0, 48_000, 0.2);
    }
}

#[test]
fn every_rate_gives_the_same_pitch() {
    for rate in [8_000, 11_025, 22_050, 44_100, 88_200, 96_000, 192_000] {
        check(&FULL, 440.0, 441.7, 0.0, rate, 0.3);
    }
}

#[test]
fn low_and_high_notes_are_followed() {
    for hz in [32.7, 65.4, 110.0, 261.6, 880.0, 1760.0, 3520.0] {
        check(&FULL, hz, hz * 1.005, 0.0, 48_000, 0.5);
    }
}

#[test]
fn a_weak_or_missing_fundamental_and_a_lone_one_are_the_same_note() {
    check(&[0.0, 0.8, 1.0, 0.7, 0.5], 440.0, 442.0, 0.0, 48_000, 0.3);
    check(&[0.1, 1.0, 1.0, 0.5], 440.0, 442.0, 0.0, 48_000, 0.3);
    check(&[1.0], 440.0, 442.0, 0.0, 48_000, 0.3);
    check(&[1.0, 0.0, 0.5, 0.0, 0.3], 440.0, 442.0, 0.0, 48_000, 0.3);
}

// the eighth partial of B = 8e-4 stands 43 cents above 8 times the first
#[test]
fn stretched_partials_leave_the_first_where_it_is() {
    for b in [2e-4, 4e-4, 8e-4] {
        check(&FULL, 440.0, 441.0, b, 48_000, 0.4);
    }
}

#[test]
fn a_note_an_octave_or_a_twelfth_away_is_no_estimate() {
    let partials: [(f64, &[f64]); 6] = [
        (880.0, &FULL),
        (1320.0, &FULL),
        (220.0, &FULL),
        (146.7, &FULL),
        (146.7, &[1.0, 0.0, 0.8]),
        (88.0, &[1.0, 0.0, 0.0, 0.0, 0.8]),
    ];
    for (hz, strengths) in partials {
        let held = follow(440.0, &tone(strengths, hz, 0.0, 1.5, 48_000), 48_000);
        assert!(held.is_empty(), "{hz} Hz: {:?}", held[0]);
    }
}

// a lone partial 9 dB under the noise: nothing but the noise's own theory makes its interval
#[test]
fn nineteen_of_twenty_intervals_hold_a_tone_in_loud_noise() {
    let held = follow(440.0, &tone(&[0.003], 441.0, 0.0, 40.0, 48_000), 48_000);
    let inside = |h: &&Held| 1200.0 * (h.hz / 441.0).log2().abs() <= h.u95_cents;
    let share = held.iter().filter(inside).count() as f64 / held.len() as f64;
    assert!(held.len() > 360, "{}", held.len());
    assert!((0.92..=0.985).contains(&share), "{share}");
}

#[test]
fn two_notes_a_semitone_apart_give_no_estimate() {
    let two: Vec<f32> = tone(&FULL, 440.0, 0.0, 1.5, 48_000)
        .iter()
        .zip(tone(&FULL, 466.2, 0.0, 1.5, 48_000))
        .map(|(a, b)| a + b)
        .collect();
    assert_eq!(follow(440.0, &two, 48_000), []);
}

#[test]
fn silence_and_noise_give_no_estimate() {
    assert_eq!(follow(440.0, &[0.0; 48_000], 48_000), []);
    for hz in [55.0, 440.0, 3_000.0] {
        assert_eq!(follow(hz, &tone(&[], hz, 0.0, 4.0, 48_000), 48_000), []);
    }
}

#[test]
fn impossible_rates_pitches_and_reaches_are_named() {
    let error = |rate, hz, reach| HeldNote::new(rate, hz, reach).err();
    let rate = ListenError::Rate { rate_hz: 7_999 };
    assert_eq!(error(7_999, 440.0, REACH), Some(HeldError::Listen(rate)));
    for about_hz in [0.0, -440.0, 20.0, 4_900.0, f64::INFINITY] {
        let expected = Some(HeldError::Pitch { about_hz });
        assert_eq!(error(48_000, about_hz, REACH), expected);
    }
    assert!(matches!(
        error(48_000, f64::NAN, REACH),
        Some(HeldError::Pitch { .. })
    ));
    assert!(matches!(
        error(8_000, 3_500.0, REACH),
        Some(HeldError::Pitch { .. })
    ));
    for reach in [(401.0, 0.0), (0.0, -1.0), (f64::NAN, 0.0)] {
        let found = error(48_000, 440.0, reach);
        assert!(matches!(found, Some(HeldError::Reach { .. })), "{reach:?}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn no_sound_makes_it_fall_and_pieces_of_any_size_agree(
        sound in proptest::collection::vec(
            prop_oneof![Just(f32::NAN), Just(f32::NEG_INFINITY), Just(f32::MIN), -1.0f32..1.0, Just(0.0f32)],
            0..30_000,
        ),
        rate in 8_000u32..=192_000,
        about_hz in 30.0..2_500.0f64,
        size in 1usize..7_000,
    ) {
        let mut whole = HeldNote::new(rate, about_hz, REACH).unwrap();
        let mut pieces = HeldNote::new(rate, about_hz, REACH).unwrap();
        let mut sound = sound;
        sound.extend(tone(&FULL, about_hz, 0.0, 0.5, rate));
        let at_once = whole.push(&sound);
        let by_pieces: Vec<Held> = sound.chunks(size).flat_map(|piece| pieces.push(piece)).collect();
        prop_assert!(at_once.iter().all(|h| h.hz.is_finite() && h.u95_cents > 0.0));
        prop_assert_eq!(at_once, by_pieces);
    }
}
