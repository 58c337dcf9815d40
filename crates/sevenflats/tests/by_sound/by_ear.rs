//! Strings tuned by ear, by sound alone: what the silent ear keeps to itself until the end holds the truth. The strings are
//! invented (`pluck`), their truth is exact.

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::Set;
use tuning::practice::{Came, Drill, Guess, Pair, Said, SilentEar, Stage, Told, pairs};

/// Where the tuned string stands before and after, in turn, cents.
const BEFORE: [f64; 4] = [-22.0, 9.0, 31.0, -6.0];
const AFTER: [f64; 4] = [1.5, -2.5, 0.0, 4.0];
/// Where the string that stays stands.
const STAYS: [f64; 3] = [0.0, -4.0, 6.0];

/// What was found of one attempt, and what is true.
struct Tuned {
    pair: Pair,
    before: (Came, f64),
    after: (Came, f64),
    said: Option<Said>,
}

/// The room's noise comes and goes; where it broke off it would be heard as a pluck.
fn swelling(mut samples: Vec<f32>) -> Vec<f32> {
    const RAMP: usize = 2_400;
    let ramp = |at: usize| (at as f32 / RAMP as f32).min(1.0);
    let length = samples.len();
    for (at, sample) in samples.iter_mut().enumerate() {
        *sample *= ramp(at) * ramp(length - at);
    }
    samples
}

/// One pluck, and how far it truly stands above its pitch.
fn played(ear: &mut SilentEar, hz: f64, off: f64, name: &str, seed: u64) -> (Vec<Told>, f64) {
    let pluck = Set::Real20.pluck_at(hz, off, name, seed).unwrap();
    assert_eq!(pluck.rate, 48_000);
    let mut told = ear.push(&swelling(pluck.samples));
    told.extend(ear.push(&vec![0.0; 24_000]));
    let sounds = pitch::cents(pluck.truth.nominal_hz, pluck.truth.sounding_hz);
    (told, sounds)
}

/// Plucks a string until it is read, as a player would: at most three times.
fn read(ear: &mut SilentEar, hz: f64, off: f64, name: &str, seed: u64) -> f64 {
    for again in 0..3 {
        let (told, truth) = played(ear, hz, off, name, seed + 1000 * again);
        if told.contains(&Told::Taken) {
            return truth;
        }
    }
    panic!("{name} at {off} was not read three times");
}

fn attempted(pair: Pair, at: usize) -> Tuned {
    let (seed, by_ear) = (at as u64, pair.by_ear);
    let (stays, tuned) = (pair.stays.to_string(), pair.tuned.to_string());
    let [stands, from, to] = [STAYS[at % 3], BEFORE[at % 4], AFTER[at % 4]];
    let mut ear = SilentEar::new(48_000, pair.clone(), ReferencePitch::A440, 0.8).unwrap();
    let first = read(&mut ear, by_ear.stays_hz, stands, &stays, seed);
    let second = read(&mut ear, by_ear.tuned_hz, from, &tuned, seed);
    assert_eq!(ear.attempt().stage(), Stage::Say);
    ear.say(Some(if from > stands {
        Guess::High
    } else {
        Guess::Low
    }));
    // what is plucked meanwhile tells nothing, but for a string far up
    let (told, _) = played(&mut ear, by_ear.tuned_hz, 12.0, &tuned, seed);
    assert!(told.iter().all(|told| *told == Told::Taken), "{told:?}");
    ear.there();
    let third = read(&mut ear, by_ear.stays_hz, stands, &stays, seed + 1);
    let fourth = read(&mut ear, by_ear.tuned_hz, to, &tuned, seed + 1);
    let outcome = ear.attempt().outcome();
    Tuned {
        pair,
        before: (outcome.before.unwrap(), second - first),
        after: (outcome.after.unwrap(), fourth - third),
        said: outcome.said,
    }
}

fn all_pairs() -> Vec<Pair> {
    let harp = Harp::named("pedal47").unwrap();
    let setup = Setup::open(ReferencePitch::A440);
    let octaves = 1..=6;
    let drills = octaves.flat_map(|octave| {
        [
            Drill::Octave(octave),
            Drill::Fifth(octave),
            Drill::Unison(octave),
        ]
    });
    drills
        .flat_map(|drill| pairs(&harp, &setup, drill).unwrap())
        .collect()
}

#[test]
fn what_she_did_is_told_within_the_interval() {
    let step = if std::env::var("SEVENFLATS_LONG").is_ok() {
        1
    } else {
        9
    };
    let pairs = all_pairs();
    assert_eq!(pairs.len(), 126);
    let all: Vec<Tuned> = (pairs.into_iter().enumerate())
        .step_by(step)
        .map(|(at, pair)| attempted(pair, at))
        .collect();
    let mut held = 0;
    for one in &all {
        for (came, truth) in [one.before, one.after] {
            let miss = (came.off_cents - truth).abs();
            assert!(
                miss <= 3.0 * came.u95_cents.max(0.3),
                "{} against {}: {came:?}, in truth {truth}",
                one.pair.tuned,
                one.pair.stays
            );
            held += usize::from(miss <= came.u95_cents);
        }
        assert_ne!(one.said, Some(Said::Wrong), "she said what was true");
    }
    let share = held as f64 / (2 * all.len()) as f64;
    println!("by ear: {held} of {} within the interval", 2 * all.len());
    assert!(share >= 0.88, "{share}");
}

#[test]
fn a_string_far_up_is_warned_of_and_another_string_is_named() {
    let pair = all_pairs()
        .into_iter()
        .find(|pair| pair.tuned.to_string() == "D4");
    let pair = pair.unwrap();
    let hz = pair.by_ear;
    let mut ear = SilentEar::new(48_000, pair, ReferencePitch::A440, 0.8).unwrap();
    let (told, _) = played(&mut ear, hz.tuned_hz, 0.0, "D4", 5);
    assert!(
        matches!(told[..], [.., Told::Another(string)] if string.to_string() == "D4"),
        "{told:?}"
    );
    read(&mut ear, hz.stays_hz, 0.0, "D5", 5);
    read(&mut ear, hz.tuned_hz, 0.0, "D4", 6);
    ear.say(None);
    for (off, expected) in [
        (45.0, Told::FarUp),
        (120.0, Told::FarUp),
        (5.0, Told::Taken),
    ] {
        let (told, _) = played(&mut ear, hz.tuned_hz, off, "D4", 7);
        assert_eq!(told.last(), Some(&expected), "{off}: {told:?}");
    }
}
