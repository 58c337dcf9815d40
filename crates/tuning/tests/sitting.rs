//! A sitting that is told of its own sound, of gaps and of rounds that broke off. The strings are damped partials that obey
//! Fletcher's law (JASA 36, 1964), written out here; the harp is a pedal harp with its pedals up at A4 = 440.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;
use proptest::prelude::*;
use tuning::round::{Act, Event, Plan, Round, State, Then};
use tuning::{EarError, Happened, Heard, Reading, Reason, Sitting};

const RATE: u32 = 48_000;

fn plan() -> Plan {
    let setup = Setup::open(ReferencePitch::A440);
    Plan::of(&Harp::named("pedal47").unwrap(), &setup).unwrap()
}

fn name(string: &str) -> StringName {
    string.parse().unwrap()
}

/// So many seconds of faint noise with a pluck after half a second, `off` cents from the string's target.
fn pluck(string: &str, off: f64, seconds: f64, rate: u32) -> Vec<f32> {
    let standing = plan()
        .strings
        .iter()
        .map(|s| s.standing)
        .find(|s| s.string == name(string));
    let f1 = standing.unwrap().target_hz * (off / 1200.0).exp2();
    let b = signal::Prior::usual(f1).b;
    let mut x = 5u64;
    let value = |i: usize| {
        x = x
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        let noise = (x >> 40) as f64 / f64::from(1 << 23) - 1.0;
        let t = i as f64 / f64::from(rate) - 0.5;
        let mut y = 2e-4 * noise;
        if t >= 0.0 {
            y += 0.02 * noise * (-t / 0.008).exp();
            for n in (1..=12).map(f64::from) {
                let hz = n * f1 * ((1.0 + b * n * n) / (1.0 + b)).sqrt();
                let wave = (std::f64::consts::TAU * hz * t + n).cos();
                y += 0.1 / n * (-(1.5 + n) * t).exp() * wave;
            }
        }
        y as f32
    };
    (0..(seconds * f64::from(rate)) as usize)
        .map(value)
        .collect()
}

fn begun() -> (Sitting, Vec<Event>) {
    let mut sitting = Sitting::new(RATE, plan(), 0.6).unwrap();
    let events = vec![sitting.act(Act::Begin).event];
    (sitting, events)
}

fn last(happened: &[Happened]) -> Vec<&Reading> {
    let readings = happened.iter().filter_map(|h| match &h.event {
        Event::Heard(Heard::Reading(r)) if r.last => Some(r),
        _ => None,
    });
    readings.collect()
}

/// One reading, of this string, so far off and at this second.
fn check(happened: &[Happened], string: &str, off: f64, at_s: f64) {
    let [r] = last(happened)[..] else {
        panic!("{happened:?}");
    };
    assert_eq!(r.string, Some(name(string)), "{r:?}");
    assert!(
        (r.off_cents - r.stiffness_cents - off).abs() < 1.5 + r.u95_cents,
        "{r:?}"
    );
    assert!((r.at_s - at_s).abs() < 0.005, "{r:?}");
}

#[test]
fn a_tone_of_its_own_is_not_heard_and_the_pluck_after_it_is() {
    let mut sound = pluck("A4", -12.0, 2.0, RATE);
    let end = 24_000 - 7_680;
    for (k, y) in sound[end - 5_760..end].iter_mut().enumerate() {
        let edge = (k.min(5_760 - k) as f64 / 240.0).min(1.0);
        *y += (0.1 * edge * (0.11 * k as f64).sin()) as f32;
    }
    let (mut sitting, _) = begun();
    let mut happened = sitting.push(&sound[..end - 5_760]);
    sitting.own_sound(true);
    happened.extend(sitting.push(&sound[end - 5_760..end]));
    sitting.own_sound(false);
    assert!(happened.is_empty(), "{happened:?}");
    happened.extend(sitting.push(&sound[end..]));
    check(&happened, "A4", -12.0, 0.5);
}

#[test]
fn a_round_taken_up_again_goes_on_in_its_own_time() {
    let (mut sitting, mut events) = begun();
    events.extend(
        sitting
            .push(&pluck("A4", -12.0, 2.0, RATE))
            .into_iter()
            .map(|h| h.event),
    );
    let (mut sitting, past) = Sitting::resume(44_100, plan(), 0.6, &events).unwrap();
    assert_eq!(past.len(), events.len());
    // the last word came by 1.1 s
    let from_s = sitting.now_s();
    assert_eq!(from_s, 3.0);
    let happened = sitting.push(&pluck("B4", 8.0, 2.0, 44_100));
    check(&happened, "B4", 8.0, from_s + 0.5);
    let before = sitting
        .round()
        .summary()
        .strings
        .into_iter()
        .find(|s| s.string == name("A4"));
    assert!((before.unwrap().before.unwrap().off_cents + 12.0).abs() < 2.0);
}

#[test]
fn the_new_ear_is_told_what_the_old_one_had_been_told() {
    let (mut sitting, mut events) = begun();
    let acts = [
        Act::Broke(name("B4"), Then::PlayWithout),
        Act::Broke(name("D4"), Then::FittedNow),
        Act::UseA {
            a4_hz: 442.0,
            technician_asked: false,
        },
    ];
    events.extend(acts.map(|act| sitting.act(act).event));
    let slack = pluck("D4", -400.0, 2.0, RATE);
    let (mut taken_up, _) = Sitting::resume(RATE, plan(), 0.6, &events).unwrap();
    let up = 1_200.0 * (442.0f64 / 440.0).log2();
    check(
        &taken_up.push(&slack),
        "D4",
        -400.0 - up,
        taken_up_from(&events) + 0.5,
    );
    assert_eq!(taken_up.round().state(name("B4")), Some(State::Broken));
    // and so is the one of another rate
    events.extend(
        sitting
            .change_rate(96_000)
            .unwrap()
            .into_iter()
            .map(|h| h.event),
    );
    let happened = sitting.push(&pluck("D4", -400.0, 2.0, 96_000));
    check(&happened, "D4", -400.0 - up, 0.5);
}

/// The second at which events that end so are taken up.
fn taken_up_from(events: &[Event]) -> f64 {
    events.last().unwrap().at_s().ceil() + 1.0
}

#[test]
fn a_round_whose_every_string_is_broken_can_be_taken_up() {
    let (mut sitting, mut events) = begun();
    for string in plan().strings {
        let act = Act::Broke(string.standing.string, Then::PlayWithout);
        events.push(sitting.act(act).event);
    }
    let (mut sitting, _) = Sitting::resume(RATE, plan(), 0.6, &events).unwrap();
    sitting.act(Act::Broke(name("A4"), Then::FittedNow));
    let happened = sitting.push(&pluck("A4", -30.0, 2.0, RATE));
    assert_eq!(last(&happened)[0].string, Some(name("A4")));
}

#[test]
fn another_rate_gives_the_pluck_that_was_heard_its_word_and_a_bad_one_changes_nothing() {
    let (mut sitting, _) = begun();
    let sound = pluck("A4", -12.0, 0.9, RATE);
    assert!(last(&sitting.push(&sound)).is_empty());
    assert!(matches!(sitting.change_rate(100), Err(EarError::Listen(_))));
    let happened = sitting.change_rate(44_100).unwrap();
    check(&happened, "A4", -12.0, 0.5);
    assert!((sitting.now_s() - 0.9).abs() < 1e-4);
}

#[test]
fn a_gap_gives_one_word_and_is_counted_in_every_ear() {
    let (mut sitting, _) = begun();
    let sound = pluck("A4", -12.0, 2.0, RATE);
    let mut happened = sitting.push(&sound[..40_000]);
    happened.extend(sitting.lost(480));
    happened.extend(sitting.push(&sound[40_480..]));
    let refused = happened.iter().filter_map(|h| match &h.event {
        Event::Heard(Heard::Refused(r)) => Some(r),
        _ => None,
    });
    let refused: Vec<_> = refused.collect();
    assert!(
        refused.len() == 1 && last(&happened).is_empty(),
        "{happened:?}"
    );
    assert_eq!(refused[0].reason, Reason::AudioBroke);
    assert_eq!(refused[0].string, Some(name("A4")));
    sitting.change_rate(44_100).unwrap();
    sitting.lost(10);
    assert_eq!(sitting.breaks(), 2);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// Whatever is told in whatever order, nothing falls and the clock counts what it was given.
    #[test]
    fn anything_may_be_told_at_any_time(told in proptest::collection::vec((0u8..6, 0usize..30_000), 1..30)) {
        let sound = pluck("A4", -12.0, 2.0, RATE);
        let (mut sitting, mut events) = begun();
        let mut at = 0;
        for (what, samples) in told {
            let before_s = sitting.now_s();
            let happened = match what {
                0 => { sitting.own_sound(true); Vec::new() }
                1 => { sitting.own_sound(false); Vec::new() }
                2 => sitting.lost(samples as u64),
                3 => sitting.change_rate(8_000 + samples as u32).unwrap(),
                _ => {
                    let piece = sound.iter().cycle().skip(at).take(samples).copied();
                    at = (at + samples) % sound.len();
                    sitting.push(&piece.collect::<Vec<f32>>())
                }
            };
            prop_assert!(sitting.now_s() >= before_s);
            events.extend(happened.into_iter().map(|h| h.event));
        }
        let again = events.iter().fold(Round::new(plan()), |mut round, event| { round.step(event); round });
        prop_assert_eq!(&again, sitting.round());
    }
}
