//! Notes that must give their A, and how near.

use pitch::cents;
use tuning::round::TakenA;

use crate::sounds::{VOICES, Voice, note, with_noise};
use crate::{add, hear, tempered};

/// Takes the A from a sound; it must be there, and its half hertz as near as its interval says.
#[track_caller]
fn check(named: &str, sound: &[f64], rate: u32, a4: f64) -> TakenA {
    let taken = hear(named, sound, rate).take_the_a();
    let taken = taken.unwrap_or_else(|e| panic!("{named} at {a4}: {e}"));
    let slack = 0.25 + 1.5 * taken.u95_cents * a4 / 1731.0;
    assert!((taken.a4_hz - a4).abs() <= slack, "{a4}: {taken:?}");
    assert_eq!(
        taken.a4_hz * 2.0,
        (taken.heard_hz * 2.0).round(),
        "{taken:?}"
    );
    taken
}

#[test]
fn the_interval_holds_the_a_of_eight_instruments_in_noise() {
    let noises = [(20.0, true), (10.0, false), (20.0, false), (10.0, true)];
    let (mut cases, mut inside, mut widths, mut worst) = (0, 0, Vec::new(), 0.0f64);
    for voice in VOICES {
        for (k, a4) in [415.0, 430.0, 440.7, 442.0, 445.3].into_iter().enumerate() {
            for (j, named) in ["A4", "C4"].into_iter().enumerate() {
                // what a bar leaves after two seconds lies under the loudest noise: that is the next check's
                let calm = voice == Voice::Mallet;
                let (db, pink) = noises[if calm { 0 } else { (k + 2 * j + cases) % 4 }];
                let seed = 100 + cases as u64;
                let rate = [48_000, 44_100, 96_000][cases % 3];
                let clean = note(voice, tempered(named, a4), 3.6, rate, seed);
                let taken = check(named, &with_noise(&clean, db, pink, seed), rate, a4);
                let off = cents(a4, taken.heard_hz).abs();
                worst = worst.max(off);
                cases += 1;
                inside += usize::from(off <= taken.u95_cents);
                widths.push(taken.u95_cents);
            }
        }
    }
    assert_eq!(cases, 80);
    assert!((76..=80).contains(&inside), "{inside} of {cases}");
    // worth half a hertz, 2 cents, and no wider than is needed to hold
    widths.sort_by(f64::total_cmp);
    assert!(widths[40] < 0.8 && worst < 1.0, "{} {worst}", widths[40]);
}

// loud noise, so that it and nothing else decides how far off an estimate is
#[test]
fn each_estimate_of_a_steady_note_has_an_honest_interval() {
    let (mut all, mut inside, mut seed) = (0, 0, 0);
    for voice in [Voice::Organ, Voice::Clarinet, Voice::NoFundamental] {
        for db in [-6.0, -3.0, 0.0] {
            seed += 1;
            let clean = note(voice, 441.3, 4.0, 48_000, seed);
            let heard = hear("A4", &with_noise(&clean, db, false, seed), 48_000);
            let holds = |hz: f64, u95: f64| cents(441.3, hz).abs() <= u95;
            all += heard.estimates.len();
            inside += (heard.estimates.iter())
                .filter(|e| holds(e.hz, e.u95_cents))
                .count();
        }
    }
    let share = inside as f64 / all as f64;
    assert!(
        all > 340 && (0.92..=0.99).contains(&share),
        "{share} of {all}"
    );
}

#[test]
fn any_rate_and_any_named_note_serve() {
    for (named, rate) in [
        ("A4", 8_000),
        ("A4", 192_000),
        ("Bb4", 44_100),
        ("A3", 48_000),
        ("A2", 44_100),
        ("F#5", 48_000),
        ("C6", 48_000),
        ("D3", 22_050),
    ] {
        for voice in [Voice::Organ, Voice::Clarinet, Voice::NoFundamental] {
            let sound = note(voice, tempered(named, 443.2), 3.6, rate, 3);
            let taken = check(named, &with_noise(&sound, 30.0, true, 4), rate, 443.2);
            assert!(
                cents(443.2, taken.heard_hz).abs() < 0.3,
                "{named} {taken:?}"
            );
        }
    }
}

// reference/pitch-arithmetic C21: C4 is 261.626 Hz at A4 = 440, 262.815 at 442
#[test]
fn middle_c_as_tabled_gives_440_and_442() {
    for (hz, a4) in [(261.626, 440.0), (262.815, 442.0)] {
        let taken = check("C4", &note(Voice::Organ, hz, 3.6, 48_000, 1), 48_000, a4);
        assert_eq!(taken.a4_hz, a4);
    }
}

#[test]
fn what_plays_softer_beside_it_does_no_harm() {
    for other in ["E5", "D4", "C#5", "G4", "F4", "Bb4", "A3"] {
        let a = note(Voice::Oboe, 442.0, 3.6, 48_000, 5);
        let beside = note(Voice::Violin, tempered(other, 442.0), 3.6, 48_000, 6);
        let taken = check("A4", &add(&a, &beside, 0.3), 48_000, 442.0);
        assert!(
            cents(442.0, taken.heard_hz).abs() < 1.6,
            "{other} {taken:?}"
        );
    }
}

#[test]
fn hum_clipping_and_an_offset_do_no_harm() {
    let a = note(Voice::Clarinet, 440.7, 3.6, 48_000, 7);
    let worse: Vec<f64> = (a.iter().enumerate())
        .map(|(i, y)| {
            let hum = 0.05 * (std::f64::consts::TAU * 50.0 * i as f64 / 48_000.0).sin();
            (y + hum + 0.2).clamp(-0.3, 0.3)
        })
        .collect();
    check("A4", &worse, 48_000, 440.7);
}

#[test]
fn the_longest_stretch_counts_when_the_player_breathes() {
    let mut sound = note(Voice::Oboe, 442.0, 1.0, 48_000, 8);
    sound.extend(vec![0.0; 48_000]);
    sound.extend(note(Voice::Oboe, 442.0, 3.4, 48_000, 9));
    let heard = hear("A4", &sound, 48_000);
    assert!((heard.from_s - 2.0).abs() < 0.2, "{}", heard.from_s);
    assert!((heard.held_s - 3.4).abs() < 0.2, "{}", heard.held_s);
    check("A4", &sound, 48_000, 442.0);
}
/// Six echoes after 23 to 38 ms, each 3 % of what came before: a live room, of our own invention.
fn in_a_room(sound: &[f64]) -> Vec<f64> {
    let mut heard = sound.to_vec();
    for late in [1116, 1277, 1422, 1557, 1687, 1801] {
        let before = heard.clone();
        for (y, echo) in heard.iter_mut().skip(late).zip(before) {
            *y += 0.03 * echo;
        }
    }
    heard
}

#[test]
fn a_swinging_note_in_a_live_room_keeps_its_a() {
    for (k, voice) in [Voice::Oboe, Voice::Violin, Voice::Flute]
        .into_iter()
        .enumerate()
    {
        for a4 in [432.0, 440.7, 442.4, 447.1] {
            let sound = note(voice, a4, 3.6, 48_000, k as u64);
            let taken = check("A4", &in_a_room(&sound), 48_000, a4);
            let off = cents(a4, taken.heard_hz).abs();
            assert!(off <= taken.u95_cents && off < 1.2, "{a4}: {taken:?}");
        }
    }
}
