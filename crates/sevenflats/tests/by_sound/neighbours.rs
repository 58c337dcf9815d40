//! A wrong name breaks strings. With every pedal on natural, E and F, B and C stand a semitone apart;
//! where the lower one is far too high, no answer may send a hand the wrong way. The strings are
//! invented (`pluck`), their truth is exact.

use crate::heard::{hear, natural, readings, told};
use crate::still_missed;
use harp::{Standing, StringName};
use pitch::{Letter, cents};
use pluck::{Event, Pluck, Plucked, Round, RoundString, Set};
use tuning::{Direction, Heard, Reading};

/// How far the lower string stands above its own target, in cents.
const OFF: [f64; 7] = [30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0];
/// Cents, beside its interval, within which an answer is held to the truth.
const WITHIN: f64 = 3.0;

/// A string and the one a semitone above it.
struct Pair {
    lower: Standing,
    upper: Standing,
}

fn pairs(standing: &[Standing]) -> Vec<Pair> {
    let apart = |w: &[Standing]| cents(w[0].target_hz, w[1].target_hz);
    let pairs: Vec<Pair> = standing
        .windows(2)
        .filter(|w| apart(w) < 101.0)
        .map(|w| Pair {
            lower: w[0],
            upper: w[1],
        })
        .collect();
    assert_eq!(
        pairs.len(),
        13,
        "neighbours a semitone apart on a harp of 47"
    );
    assert!(
        pairs
            .iter()
            .all(|p| matches!(p.lower.string.letter, Letter::E | Letter::B))
    );
    pairs
}

fn seeds() -> std::ops::Range<u64> {
    if std::env::var("SEVENFLATS_LONG").is_ok() {
        0..6
    } else {
        0..1
    }
}

/// Every pair, every distance, every seed; each answer that `judge` finds wrong is named.
fn check(guided: bool, judge: impl Fn(&Pair, &Pluck, &[Heard]) -> Result<(), String>) {
    let standing = natural("pedal47");
    let (mut wrong, mut count) = (Vec::new(), 0);
    for pair in pairs(&standing) {
        let name = pair.lower.string.to_string();
        for (seed, off) in seeds().flat_map(|seed| OFF.map(|off| (seed, off))) {
            let pluck = Set::Real20
                .pluck_at(pair.lower.target_hz, off, &name, seed)
                .unwrap();
            let guide = guided.then_some(pair.lower.string);
            let heard = hear(&standing, &pluck.samples, pluck.rate, guide);
            count += 1;
            if let Err(why) = judge(&pair, &pluck, &heard) {
                wrong.push(format!("{name} {off:+} seed {seed}: {why}"));
            }
        }
    }
    assert!(count >= 13 * OFF.len(), "{count} plucks");
    assert!(
        wrong.is_empty(),
        "{} of {count}:\n{}",
        wrong.len(),
        wrong.join("\n")
    );
}

/// The lower string is high: 'down', for that string, is the only direction that may be given.
fn misleads(lower: StringName, reading: &Reading) -> bool {
    match reading.direction {
        None => false,
        Some(Direction::Up | Direction::There) => true,
        Some(Direction::Down) => reading.string != Some(lower),
    }
}

#[test]
fn a_single_pluck_between_two_strings_sends_no_hand_the_wrong_way() {
    check(false, |pair, _, heard| {
        match readings(heard)
            .iter()
            .any(|r| misleads(pair.lower.string, r))
        {
            true => Err(told(heard)),
            false => Ok(()),
        }
    });
}

#[test]
fn a_string_that_is_pinned_is_followed_all_the_way() {
    check(true, |pair, pluck, heard| {
        let finals: Vec<&Reading> = readings(heard).into_iter().filter(|r| r.last).collect();
        let [reading] = finals[..] else {
            return Err(format!("{} final readings: {}", finals.len(), told(heard)));
        };
        let off = cents(pluck.truth.sounding_hz, reading.heard_hz);
        let right = reading.string == Some(pair.lower.string)
            && off.abs() <= WITHIN + reading.u95_cents
            && readings(heard)
                .iter()
                .all(|r| !misleads(pair.lower.string, r));
        match right {
            true => Ok(()),
            false => Err(format!("{off:+.2} cents from the truth; {}", told(heard))),
        }
    });
}

/// Seconds from pluck to pluck while a pin is turned.
const APART_S: f64 = 2.0;

/// What one ear says of one string whose pin is turned between plucks, while it rings on among the
/// other strings in tune: every answer, with the truth of the pluck it belongs to.
fn turned(
    (standing, pair): (&[Standing], &Pair),
    course: &[f64],
    upper_first: bool,
    seed: u64,
) -> Vec<(Plucked, Reading)> {
    let name = pair.lower.string.to_string();
    let mut strings = RoundString::of_harp(standing);
    let lower = strings.iter_mut().find(|s| s.name == name).unwrap();
    lower.off_cents = course[0];
    let mut events = Vec::new();
    let mut at_s = 0.4;
    if upper_first {
        events.push(Event::pluck(at_s, &pair.upper.string.to_string()));
        at_s += APART_S;
    }
    for (k, to) in course.iter().enumerate() {
        if k > 0 {
            events.push(Event::turn(at_s - 1.0, &name, *to, 0.6));
        }
        events.push(Event::pluck(at_s, &name));
        at_s += APART_S;
    }
    let performance = Round::new(strings, events, seed).perform().unwrap();
    let truth = performance.truth().to_vec();
    let sound: Vec<f32> = performance.flatten().collect();
    let heard = hear(standing, &sound, 48_000, None);
    let apart = |p: &Plucked, r: &Reading| (p.at_s - r.at_s).abs();
    let nearest = |r: &Reading| {
        let near = truth
            .iter()
            .min_by(|a, b| apart(a, r).total_cmp(&apart(b, r)));
        near.unwrap().clone()
    };
    let answers = readings(&heard).into_iter();
    let answers = answers.map(|r| (nearest(r), r.clone()));
    answers.filter(|(p, _)| p.string == name).collect()
}

/// What is wrong with an answer about the lower string: it must have its name, or both and no
/// direction; and stand where the string stands.
fn wrong_on_the_way(pair: &Pair, plucked: &Plucked, reading: &Reading) -> Option<&'static str> {
    let lower = pair.lower.string;
    let held = reading.string == Some(lower) || reading.candidates.contains(&lower);
    let off = cents(plucked.sounding_hz, reading.heard_hz);
    if misleads(lower, reading) {
        Some("misleads")
    } else if !held {
        Some("another name")
    } else if off.abs() > WITHIN + reading.u95_cents {
        Some("another pitch")
    } else {
        None
    }
}

fn check_turned(name: &str, course: &[f64], upper_first: bool) {
    let standing = natural("pedal47");
    let (mut wrong, mut plucks, mut read, mut upper_named) = (Vec::new(), 0, 0, 0);
    for pair in pairs(&standing) {
        for seed in seeds() {
            plucks += course.len();
            for (plucked, reading) in turned((&standing, &pair), course, upper_first, seed) {
                read += usize::from(reading.last);
                upper_named += usize::from(reading.string == Some(pair.upper.string));
                if let Some(why) = wrong_on_the_way(&pair, &plucked, &reading) {
                    let (name, off) = (&plucked.string, plucked.off_cents());
                    let error = cents(plucked.sounding_hz, reading.heard_hz);
                    let told = told(&[Heard::Reading(reading)]);
                    wrong.push(format!(
                        "{name} {off:+.0} seed {seed}: {why} by {error:+.1} cents: {told}"
                    ));
                }
            }
        }
    }
    println!("{read} of {plucks} plucks read; {upper_named} answers name the upper string first");
    assert!(plucks >= 13 * course.len(), "{plucks} plucks");
    assert!(read * 2 > plucks, "{read} of {plucks} plucks read");
    still_missed::hold(&format!("neighbours {name}"), plucks, &wrong);
}

#[test]
fn a_string_turned_up_across_the_middle_between_two_keeps_its_name_or_both_are_named() {
    check_turned("turned up", &OFF, false);
}

#[test]
fn a_string_turned_up_after_its_neighbour_was_heard_keeps_its_name_or_both_are_named() {
    check_turned("turned up after the upper", &OFF, true);
}

#[test]
fn a_string_eased_down_across_the_middle_between_two_is_never_mistaken() {
    let mut down = OFF;
    down.reverse();
    check_turned("eased down", &down, false);
}
