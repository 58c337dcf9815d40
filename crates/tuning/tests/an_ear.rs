//! An ear on sound made by formulas: what it must say, and what it must never say.
//!
//! The strings are damped partials that obey Fletcher's law (JASA 36, 1964), written out here, so that their pitch is known;
//! the harp is a pedal harp of 47 strings at A4 = 440 with its pedals at natural. (Plucks of the sets are held in the
//! command's tests and in the benches.)
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use harp::{Harp, Position, Setup, Standing, StringName};
use pitch::ReferencePitch;
use proptest::prelude::*;
use tuning::{Direction, Ear, EarError, Heard, Listening, Reading, Reason};

const RATE: u32 = 48_000;

fn reference() -> ReferencePitch {
    ReferencePitch::new(440.0).unwrap()
}

fn standing() -> Vec<Standing> {
    let setup = Setup {
        position: Position::Natural,
        ..Setup::open(reference())
    };
    Harp::named("pedal47").unwrap().standing(&setup).unwrap()
}

/// A pluck with a finger's noise, `off` cents from the string's target, after a second of faint noise.
fn pluck(string: &str, off: f64, seconds: f64) -> Vec<f32> {
    let name: StringName = string.parse().unwrap();
    let target = standing()
        .iter()
        .find(|s| s.string == name)
        .unwrap()
        .target_hz;
    let f1 = target * (off / 1200.0).exp2();
    let b = signal::Prior::usual(f1).b;
    let mut x = 5u64;
    (0..((1.0 + seconds) * f64::from(RATE)) as usize)
        .map(|i| {
            x = x
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            let noise = (x >> 40) as f64 / f64::from(1 << 23) - 1.0;
            let t = i as f64 / f64::from(RATE) - 1.0;
            let mut y = 2e-4 * noise;
            if t >= 0.0 {
                y += 0.02 * noise * (-t / 0.008).exp();
                for n in 1..=12 {
                    let n = f64::from(n);
                    let hz = n * f1 * ((1.0 + b * n * n) / (1.0 + b)).sqrt();
                    if hz < 10_000.0 {
                        y += 0.1 / n
                            * (-(1.5 + n) * t).exp()
                            * (std::f64::consts::TAU * hz * t + n).cos();
                    }
                }
            }
            y as f32
        })
        .collect()
}

fn hear(sound: &[f32], guided: Option<&str>, piece: usize) -> Vec<Heard> {
    let listening = Listening {
        guided: guided.map(|g| g.parse().unwrap()),
        ..Listening::new(reference())
    };
    let mut ear = Ear::new(RATE, standing(), listening).unwrap();
    let mut heard: Vec<Heard> = sound.chunks(piece).flat_map(|c| ear.push(c)).collect();
    heard.extend(ear.finish());
    heard
}

fn last(heard: &[Heard]) -> &Reading {
    let finals: Vec<&Reading> = heard
        .iter()
        .filter_map(|h| match h {
            Heard::Reading(r) if r.last => Some(r),
            _ => None,
        })
        .collect();
    assert_eq!(finals.len(), 1, "{heard:?}");
    finals[0]
}

/// One pluck is read once, as the right string, as far off as it is.
fn check(string: &str, off: f64, guided: Option<&str>, within: f64) {
    let heard = hear(&pluck(string, off, 1.0), guided, 1024);
    let r = last(&heard);
    assert_eq!(
        r.string.map(|s| s.to_string()).as_deref(),
        Some(string),
        "{r:?}"
    );
    // stiffness lifts the sounding pitch over the first partial: that is told apart
    assert!(
        (r.off_cents - r.stiffness_cents - off).abs() < within + r.u95_cents,
        "{string} {off}: {:.2} ± {:.2}",
        r.off_cents,
        r.u95_cents
    );
    assert!((r.at_s - 1.0).abs() < 0.004);
}

#[test]
fn strings_over_the_whole_compass_are_named_and_measured() {
    for (string, off) in [
        ("E1", -12.0),
        ("A2", 8.0),
        ("G3", -20.0),
        ("D4", 0.0),
        ("A4", 15.0),
        ("G5", -7.0),
        ("D6", 3.0),
        ("G7", -9.0),
    ] {
        check(string, off, None, 1.0);
    }
}

#[test]
fn a_named_string_is_followed_far_from_its_pitch() {
    check("A3", -400.0, Some("A3"), 1.5);
    check("E4", 90.0, Some("E4"), 1.5);
}

#[test]
fn a_pluck_just_under_a_string_gets_no_direction_where_the_string_below_may_have_been_raised() {
    let heard = hear(&pluck("F4", -25.0, 1.0), None, 1024);
    let r = last(&heard);
    assert_eq!(r.direction, None);
    assert!(
        r.candidates.contains(&"E4".parse().unwrap()),
        "{:?}",
        r.candidates
    );
}

#[test]
fn a_string_with_no_neighbour_in_reach_gets_its_direction() {
    let heard = hear(&pluck("D4", -25.0, 1.0), None, 1024);
    assert_eq!(last(&heard).direction, Some(Direction::Up));
}

#[test]
fn two_strings_plucked_together_are_refused_as_two() {
    let (a, b) = (pluck("D4", 0.0, 1.0), pluck("A4", 4.0, 1.0));
    let (c, d) = (pluck("E4", 0.0, 1.0), pluck("B4", 0.0, 1.0));
    for (x, y) in [(a, b), (c, d)] {
        let both: Vec<f32> = x.iter().zip(&y).map(|(x, y)| 0.5 * (x + y)).collect();
        let heard = hear(&both, None, 1024);
        assert!(
            heard
                .iter()
                .any(|h| matches!(h, Heard::Refused(r) if r.reason == Reason::TwoStrings)),
            "{heard:?}"
        );
    }
}

#[test]
fn silence_and_noise_are_no_strings() {
    assert!(hear(&vec![0.0; 96_000], None, 1024).is_empty());
    assert!(
        hear(&pluck("A4", 0.0, 1.0)[..46_000], None, 1024)
            .iter()
            .all(|h| !matches!(h, Heard::Reading(_)))
    );
}

#[test]
fn ten_missing_milliseconds_refuse_the_pluck() {
    let mut sound = pluck("G3", 0.0, 1.0);
    sound.drain(60_000..60_480);
    let heard = hear(&sound, None, 1024);
    assert!(
        heard
            .iter()
            .any(|h| matches!(h, Heard::Refused(r) if r.reason == Reason::AudioBroke)),
        "{heard:?}"
    );
    // what sounded before the cut may be read; what came after it is not
    assert!(
        heard
            .iter()
            .all(|h| !matches!(h, Heard::Reading(r) if r.last && r.at_s > 1.1))
    );
}

#[test]
fn a_string_that_does_not_stand_cannot_guide() {
    let listening = Listening {
        guided: Some("A7".parse().unwrap()),
        ..Listening::new(reference())
    };
    assert!(matches!(
        Ear::new(RATE, standing(), listening),
        Err(EarError::NotThere(_))
    ));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(8))]

    #[test]
    fn the_size_of_the_pieces_changes_nothing(piece in 1usize..6000) {
        let sound = pluck("D4", 5.0, 0.8);
        prop_assert_eq!(hear(&sound, None, piece.max(16)), hear(&sound, None, sound.len()));
    }

    #[test]
    fn no_sound_makes_an_ear_fall(sound in proptest::collection::vec(prop_oneof![Just(f32::NAN), -1.0f32..1.0, Just(0.0f32), Just(1e30f32)], 0..30_000)) {
        for h in hear(&sound, None, 777) {
            if let Heard::Reading(r) = h {
                prop_assert!(r.off_cents.is_finite() && r.u95_cents.is_finite());
            }
        }
    }
}
