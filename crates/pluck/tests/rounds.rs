//! What every round must be: exact in time and pitch, truly added up, the same each time, never beyond full scale.

#![allow(
    clippy::unwrap_used,
    reason = "a round that cannot be played must fail the test"
)]

use std::f64::consts::TAU;

use pluck::{Event, Room, Round, RoundString, What, demo_round};
use proptest::prelude::*;

/// No noise and no sympathetic strings.
const DRY: Room = Room {
    noise_under_db: f64::INFINITY,
    sympathy_under_db: f64::INFINITY,
    ..Room::QUIET
};

fn three_strings(events: Vec<Event>) -> Round {
    let strings = [
        ("A3", 220.0, -20.0),
        ("A4", 440.0, 5.0),
        ("C5", 523.25, 0.0),
    ];
    let strings = strings
        .map(|(name, hz, off)| RoundString::new(name, hz, off))
        .to_vec();
    Round {
        seconds: 5.0,
        room: DRY,
        ..Round::new(strings, events, 3)
    }
}

fn rms(samples: &[f32]) -> f64 {
    (samples.iter().map(|&x| f64::from(x).powi(2)).sum::<f64>() / samples.len() as f64).sqrt()
}

/// Frequency in Hz near `hz` between two times, from the turn between two half windows brought down to 0 Hz: an own,
/// simple measure that owes nothing to the synthesis.
fn measured_hz(samples: &[f32], rate_hz: f64, hz: f64, from_s: f64, to_s: f64) -> f64 {
    let (from, to) = ((from_s * rate_hz) as usize, (to_s * rate_hz) as usize);
    let half = (to - from) / 2;
    let phase = |start: usize| {
        let (mut re, mut im) = (0.0, 0.0);
        for k in 0..half {
            let window = 0.5 - 0.5 * (TAU * k as f64 / half as f64).cos();
            let turn = TAU * hz * (start + k) as f64 / rate_hz;
            re += window * f64::from(samples[start + k]) * turn.cos();
            im -= window * f64::from(samples[start + k]) * turn.sin();
        }
        im.atan2(re)
    };
    let turned = (phase(from + half) - phase(from) + TAU * 1.5).rem_euclid(TAU) - TAU / 2.0;
    hz + turned / TAU * rate_hz / half as f64
}

#[test]
fn the_demonstration_sounds_without_clipping_and_names_its_plucks() {
    for seed in 0..3 {
        let performance = demo_round(seed).perform().unwrap();
        let truth = performance.truth().to_vec();
        let samples: Vec<f32> = performance.flatten().collect();
        let seconds = samples.len() as f64 / 48_000.0;
        assert!((38.0..55.0).contains(&seconds), "{seconds} s");
        assert_eq!(truth.len(), 21);
        assert!(samples.iter().all(|x| x.is_finite() && x.abs() < 1.0));
        let turned: Vec<_> = truth.iter().filter(|p| !p.course.is_empty()).collect();
        assert_eq!(turned.len(), 1);
        assert_eq!(turned[0].string, "G3");
        for pluck in &truth {
            let at = (pluck.at_s * 48_000.0).round() as usize;
            let (before, after) = (rms(&samples[at - 480..at]), rms(&samples[at..at + 480]));
            assert!(
                after > 1.2 * before,
                "{} at {} s: {before} then {after}",
                pluck.string,
                pluck.at_s
            );
        }
    }
}

#[test]
fn still_plucks_measure_as_their_truth_says() {
    for rate_hz in [16_000, 44_100, 48_000] {
        let mut off: Vec<f64> = (0..9)
            .map(|seed| measured_off_cents(rate_hz, seed))
            .collect();
        off.sort_by(f64::total_cmp);
        // Each beats with its second polarisation, this way or that, by up to some cents; together they do not.
        assert!(
            off[4].abs() < 0.5 && off[0] > -5.0 && off[8] < 5.0,
            "{rate_hz} Hz: {off:?}"
        );
    }
}

/// What one pluck of A4 measures between 1 and 2 s after it, against its truth, in cents.
fn measured_off_cents(rate_hz: u32, seed: u64) -> f64 {
    let round = Round {
        rate_hz,
        seed,
        ..three_strings(vec![Event::pluck(0.5, "A4")])
    };
    let truth = round.perform().unwrap().truth()[0].clone();
    assert!((truth.off_cents() - 5.0).abs() < 1e-9);
    let samples = round.samples().unwrap();
    assert_eq!(samples.len(), 5 * rate_hz as usize);
    let hz = measured_hz(&samples, f64::from(rate_hz), 441.0, 1.5, 2.5);
    1200.0 * (hz / truth.f1_hz).log2()
}

#[test]
fn a_string_turned_while_it_rings_ends_where_its_pin_stops() {
    let round = three_strings(vec![
        Event::pluck(0.5, "A3"),
        Event::turn(1.0, "A3", 80.0, 1.5),
    ]);
    let truth = round.perform().unwrap().truth()[0].clone();
    let course = [(1.0, -20.0), (2.5, 80.0)];
    assert!(course.iter().all(|(at, cents)| {
        truth
            .course
            .iter()
            .any(|c| (c.0 - at).abs() < 1e-9 && (c.1 - cents).abs() < 1e-9)
    }));
    let hz = measured_hz(&round.samples().unwrap(), 48_000.0, 230.0, 2.6, 3.6); // in-tune A3 + 80 cents is 230.4 Hz
    let off = 1200.0 * (hz / 220.0).log2() - 80.0;
    assert!(off.abs() < 2.0, "{off} cents from where the pin stopped");
}

#[test]
fn strings_still_sounding_are_truly_added_up() {
    let quiet = |at_s, string: &str| Event {
        at_s,
        what: What::Pluck {
            string: string.to_owned(),
            level_db: -120.0,
        },
    };
    let both = three_strings(vec![Event::pluck(0.2, "A3"), Event::pluck(1.2, "C5")])
        .samples()
        .unwrap();
    let one = three_strings(vec![Event::pluck(0.2, "A3"), quiet(1.2, "C5")])
        .samples()
        .unwrap();
    let other = three_strings(vec![quiet(0.2, "A3"), Event::pluck(1.2, "C5")])
        .samples()
        .unwrap();
    for k in 0..both.len() {
        assert!((both[k] - one[k] - other[k]).abs() < 1e-5, "sample {k}");
    }
    assert!(rms(&one[96_000..]) > 1e-3, "the first string rings on");
}

#[test]
fn plucking_a_string_again_damps_it_first() {
    let again = Event {
        at_s: 2.0,
        what: What::Pluck {
            string: "A3".to_owned(),
            level_db: -60.0,
        },
    };
    let samples = three_strings(vec![Event::pluck(0.5, "A3"), again])
        .samples()
        .unwrap();
    assert!(rms(&samples[90_000..93_000]) > 30.0 * rms(&samples[100_800..105_600]));
}

#[test]
fn octaves_ring_along_thirty_decibels_under() {
    let round = three_strings(vec![Event::pluck(0.5, "A3"), Event::damp(1.0, "A3")]);
    let alone = round.samples().unwrap();
    let along = Round {
        room: Room {
            sympathy_under_db: 30.0,
            ..DRY
        },
        ..round
    }
    .samples()
    .unwrap();
    // Once the plucked string is damped only the octave is left.
    assert!(rms(&alone[60_000..84_000]) < 1e-6);
    let under = 20.0 * (rms(&along[60_000..84_000]) / 0.03).log10();
    assert!((-45.0..-25.0).contains(&under), "{under} dB");
}

#[test]
fn missing_sound_brings_what_follows_forward() {
    let whole = three_strings(vec![
        Event::pluck(0.2, "A3"),
        Event::pluck(2.0, "A4"),
        Event::damp(0.0, "C5"),
    ]);
    let mut cut = whole.clone();
    cut.events[2] = Event::missing(1.0, 0.01);
    let (a, b) = (whole.samples().unwrap(), cut.samples().unwrap());
    assert_eq!(b.len(), a.len() - 480);
    assert_eq!((&b[..48_000], &b[48_000..]), (&a[..48_000], &a[48_480..]));
    let truth = cut.perform().unwrap().truth().to_vec();
    assert!((truth[0].at_s - 0.2).abs() < 4e-4 && (truth[1].at_s - 1.99).abs() < 4e-4);

    cut.events[2] = Event {
        at_s: 1.0,
        what: What::Muted { seconds: 0.01 },
    };
    let muted = cut.samples().unwrap();
    assert_eq!(muted.len(), a.len());
    assert!(muted[48_000..48_480].iter().all(|&x| x == 0.0));
    assert_eq!(muted[48_480..], a[48_480..]);
}

#[test]
fn prompts_and_speech_are_heard_when_they_are_due() {
    let at = |at_s, what| Event { at_s, what };
    let samples = three_strings(vec![
        at(
            0.5,
            What::Tone {
                hz: 1_000.0,
                seconds: 0.3,
                level_db: 0.0,
            },
        ),
        at(
            1.5,
            What::Chirp {
                from_hz: 500.0,
                to_hz: 2_000.0,
                seconds: 0.3,
                level_db: 0.0,
            },
        ),
        at(
            2.5,
            What::Speech {
                seconds: 1.5,
                level_db: 6.0,
            },
        ),
    ])
    .samples()
    .unwrap();
    let loud =
        |from_s: f64, to_s: f64| rms(&samples[(from_s * 48e3) as usize..(to_s * 48e3) as usize]);
    for (from_s, to_s, expected) in [(0.55, 0.75, 0.03), (1.55, 1.75, 0.03), (2.5, 4.0, 0.06)] {
        assert!(
            (loud(from_s, to_s) / expected - 1.0).abs() < 0.05,
            "{from_s} s: {}",
            loud(from_s, to_s)
        );
    }
    assert_eq!(
        (loud(0.0, 0.49), loud(0.9, 1.4), loud(4.1, 5.0)),
        (0.0, 0.0, 0.0)
    );
}

fn any_event() -> impl Strategy<Value = Event> {
    let string = prop_oneof![Just("A3"), Just("A4"), Just("C5")];
    let what = (string, 0..6u8, -100.0..100.0f64, 0.0..2.0f64).prop_map(
        |(string, kind, cents, seconds)| match kind {
            0..=2 => What::Pluck {
                string: string.to_owned(),
                level_db: cents / 5.0,
            },
            3 => What::Turn {
                string: string.to_owned(),
                to_cents: cents,
                seconds,
            },
            4 => What::Damp {
                string: string.to_owned(),
            },
            _ => What::Missing {
                seconds: seconds / 100.0,
            },
        },
    );
    (0.0..2.5f64, what).prop_map(|(at_s, what)| Event { at_s, what })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 32, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_round_is_finite_within_full_scale_and_the_same_each_time(
        events in prop::collection::vec(any_event(), 0..12),
        seed: u64,
        gain in 0.0..20.0f64,
    ) {
        let plucks = events.iter().filter(|e| matches!(e.what, What::Pluck { .. })).count();
        let round = Round { seconds: 3.0, seed, room: Room { gain, ..Room::QUIET }, ..three_strings(events) };
        let samples = round.samples().unwrap();
        prop_assert!(samples.iter().all(|x| x.is_finite() && x.abs() <= 1.0));
        let truth = round.perform().unwrap().truth().to_vec();
        prop_assert_eq!(truth.len(), plucks);
        prop_assert!(truth.windows(2).all(|pair| pair[0].at_s <= pair[1].at_s));
        prop_assert_eq!(round.samples().unwrap(), samples);
    }
}

#[test]
fn a_room_with_a_pit_differs_from_one_without_by_the_pit_alone() {
    let heard = |room| {
        let round = three_strings(vec![Event::pluck(0.5, "A3")]);
        let long = Round {
            seconds: 30.0,
            room,
            ..round
        };
        long.samples().unwrap()
    };
    let (with, without) = (heard(Room::PIT10), heard(Room::REAL20));
    let pit: Vec<f32> = with.iter().zip(&without).map(|(a, b)| a - b).collect();
    let under = -20.0 * (rms(&pit) / 0.03).log10();
    assert!((under - 10.0).abs() < 1.0, "{under} dB");
    let noise = -20.0 * (rms(&without[24_000 * 40..]) / 0.03).log10();
    assert!((noise - 20.0).abs() < 1.0, "{noise} dB");
}
