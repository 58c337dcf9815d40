//! The tool speaks and sounds while the harp is heard: its own sound is no pluck, and falsifies none. The harp and the voice
//! are invented (`pluck`), the tones are written out in `support/prompted.rs`; what a pluck truly sounds is exact.

use crate::prompted::{At, Prompt, harp, mixed, readings, refused, sit, standing};
use pitch::cents;
use pluck::{Event, Room};
use tuning::round::{Event as Happening, Moving};
use tuning::{Reading, Reason};

/// Tones from 440 to 1,800 Hz and words, of which one is long.
const PROMPTS: [Prompt; 7] = [
    Prompt::Tone(440.0),
    Prompt::Word(0.4, 1),
    Prompt::Tone(880.0),
    Prompt::Word(0.7, 2),
    Prompt::Tone(1_244.5),
    Prompt::Word(1.4, 3),
    Prompt::Tone(1_800.0),
];
/// From a quiet loudspeaker to one that is louder than a pluck, dB.
const LEVELS: [f64; 4] = [-24.0, -12.0, 0.0, 6.0];
/// Cents beside both intervals.
const WITHIN: f64 = 0.5;
const ROOMS: [Room; 2] = [Room::QUIET, Room::REAL20];

fn off(place: usize) -> f64 {
    ((place * 37) % 41) as f64 - 20.0
}

/// A prompt for each place, all kinds and levels in turn.
fn prompt(place: usize, at_s: f64) -> At {
    At {
        at_s,
        prompt: PROMPTS[place % PROMPTS.len()],
        db: LEVELS[(place / 2) % LEVELS.len()],
    }
}

fn name(place: usize) -> String {
    standing()[place].string.to_string()
}

fn near<'a>(readings: &[&'a Reading], at_s: f64) -> Option<&'a Reading> {
    readings
        .iter()
        .copied()
        .find(|r| (r.at_s - at_s).abs() < 0.05)
}

#[test]
fn prompts_alone_start_nothing() {
    for room in ROOMS {
        let prompts: Vec<At> = (0..56).map(|k| prompt(k, 1.0 + 2.0 * k as f64)).collect();
        let mut silent = harp(off, Vec::new(), room, 3);
        silent.seconds = 114.0;
        let sound = mixed(&silent, &prompts);
        let unmarked = sit(&sound, &[]).len();
        let marked = sit(&sound, &prompts);
        println!(
            "{unmarked} words on 56 prompts unmarked, {} marked",
            marked.len()
        );
        assert!(unmarked >= 20, "{unmarked}");
        assert!(marked.is_empty(), "{marked:?}");
    }
}

/// Every string plucked `apart_s` after the end of a prompt.
fn check_after(room: Room, apart_s: f64, seed: u64) {
    let strings = standing().len();
    let at = |k: usize| 2.5 + 3.5 * k as f64;
    let order = |k: usize| (k * 17) % strings;
    let plucks = (0..strings).map(|k| Event::pluck(at(k), &name(order(k))));
    let harp = harp(off, plucks.collect(), room, seed);
    let prompts: Vec<At> = (0..strings)
        .map(|k| prompt(k, at(k) - apart_s - PROMPTS[k % PROMPTS.len()].seconds()))
        .collect();
    let without = sit(&mixed(&harp, &[]), &[]);
    let with = sit(&mixed(&harp, &prompts), &prompts);
    let (without, with) = (readings(&without), readings(&with));
    let (mut same, mut lost, mut wrong) = (0, Vec::new(), Vec::new());
    for (k, prompt) in prompts.iter().enumerate() {
        let Some(was) = near(&without, at(k)) else {
            continue;
        };
        let Some(is) = near(&with, at(k)) else {
            lost.push(format!("{} after {prompt:?}", name(order(k))));
            continue;
        };
        let apart = (is.off_cents - was.off_cents).abs();
        if is.string == was.string && apart <= WITHIN + is.u95_cents.hypot(was.u95_cents) {
            same += 1;
        } else {
            wrong.push(format!(
                "{}: {:?} {:+.1} ± {:.1}, not {:?} {:+.1} ± {:.1}, after {:?}",
                name(order(k)),
                is.string.map(|s| s.to_string()),
                is.off_cents,
                is.u95_cents,
                was.string.map(|s| s.to_string()),
                was.off_cents,
                was.u95_cents,
                prompt
            ));
        }
    }
    println!(
        "{apart_s} s after: {} read without, {} with; {same} the same; lost {lost:?}; other {wrong:?}",
        without.len(),
        with.len()
    );
    assert!(
        without.len() >= 45 && same == without.len(),
        "{same} of {strings}"
    );
}

#[test]
fn plucks_after_a_prompt_are_read_as_without() {
    let long = std::env::var("SEVENFLATS_LONG").is_ok();
    for (short, room) in [0.16, 0.3].into_iter().zip(ROOMS) {
        let all = [0.16, 0.3, 0.6];
        for apart_s in all.into_iter().filter(|s| long || *s == short) {
            check_after(room, apart_s, 5);
        }
    }
}

/// Seconds after its pluck at which a prompt breaks in on a reading.
const BREAKS_IN_S: [f64; 6] = [0.03, 0.09, 0.15, 0.25, 0.4, 0.55];

#[test]
fn a_reading_under_way_is_cut_short_and_not_falsified() {
    let strings = standing().len();
    let at = |k: usize| 1.0 + 4.0 * k as f64;
    let (mut read, mut held, mut early, mut short, mut wrong) = (0, 0, 0, 0, Vec::new());
    for (seed, room) in (7..).zip(ROOMS) {
        let plucks = (0..strings).map(|k| Event::pluck(at(k), &name(k)));
        let harp = harp(off, plucks.collect(), room, seed);
        let truth = harp.perform().unwrap().truth().to_vec();
        let prompts: Vec<At> = (0..strings)
            .map(|k| prompt(k, at(k) + BREAKS_IN_S[k % BREAKS_IN_S.len()]))
            .collect();
        let happened = sit(&mixed(&harp, &prompts), &prompts);
        let (readings, refused) = (readings(&happened), refused(&happened));
        assert!(
            readings.len() + refused.len() <= strings,
            "one word a pluck"
        );
        for (k, plucked) in truth.iter().enumerate() {
            let Some(r) = near(&readings, at(k)) else {
                let why = refused.iter().find(|r| (r.at_s - at(k)).abs() < 0.05);
                early += usize::from(why.is_none());
                short += usize::from(why.is_some_and(|r| r.reason == Reason::TooShort));
                continue;
            };
            read += 1;
            let error = cents(plucked.sounding_hz, r.heard_hz);
            held += usize::from(error.abs() <= r.u95_cents);
            let string = plucked.string.parse().unwrap();
            let named = r.string == Some(string) || r.candidates.contains(&string);
            if !named || error.abs() > 3.0 + r.u95_cents || r.at_s + r.listened_s > prompts[k].at_s
            {
                wrong.push(format!("{} {error:+.1}: {r:?}", plucked.string));
            }
        }
    }
    println!(
        "{read} of {} read, {held} within their interval; {short} too short, {early} without a word; {wrong:?}",
        2 * strings
    );
    assert!(wrong.is_empty(), "{wrong:?}");
    assert!(
        2 * read > 2 * strings && 10 * held >= 9 * read,
        "{read} read, {held} held"
    );
}

#[test]
fn what_is_plucked_while_it_sounds_is_passed_over_and_rings_on_unread() {
    let strings = standing().len();
    let at = |k: usize| 1.0 + 6.0 * k as f64;
    // in its middle, in the room's answer, and just before that ends
    let into = |k: usize, seconds: f64| [0.5 * seconds, seconds + 0.06, seconds + 0.14][k % 3];
    for (seed, room) in (11..).zip(ROOMS) {
        let prompts: Vec<At> = (0..strings).map(|k| prompt(k, at(k))).collect();
        let hidden = |k: usize| at(k) + into(k, prompts[k].prompt.seconds());
        let plucked = (0..strings).map(|k| Event::pluck(hidden(k), &name(k)));
        let damped = (0..strings).map(|k| Event::damp(at(k) + 5.0, &name(k)));
        let harp = harp(off, plucked.chain(damped).collect(), room, seed);
        let sound = mixed(&harp, &prompts);
        assert!(readings(&sit(&sound, &[])).len() > strings / 2);
        let happened = sit(&sound, &prompts);
        println!(
            "{} words on {strings} plucks that were hidden",
            happened.len()
        );
        assert!(happened.is_empty(), "{happened:?}");
    }
}

#[test]
fn a_string_that_is_turned_is_followed_before_and_after_and_never_the_prompt() {
    let at = |k: usize| 1.0 + 7.0 * k as f64;
    let places: Vec<usize> = (8..38).step_by(2).collect();
    // still for a second, 20 cents up in 2.5 s, still
    let (turn_s, lasts_s, by) = (1.0, 2.5, 20.0);
    let mut events = Vec::new();
    for (k, place) in places.iter().enumerate() {
        events.push(Event::pluck(at(k), &name(*place)));
        events.push(Event::turn(
            at(k) + turn_s,
            &name(*place),
            by - 20.0,
            lasts_s,
        ));
        events.push(Event::damp(at(k) + 6.5, &name(*place)));
    }
    let harp = harp(|_| -20.0, events, Room::QUIET, 13);
    let prompts: Vec<At> = (0..places.len())
        .map(|k| At {
            db: [-24.0, -12.0, 0.0][k % 3],
            ..prompt(k, at(k) + 1.8)
        })
        .collect();
    let moving = |told: &[At]| -> Vec<Moving> {
        let happened = sit(&mixed(&harp, told), told).into_iter();
        let moving = happened.filter_map(|h| match h.event {
            Happening::Moving(m) => Some(m),
            _ => None,
        });
        moving.collect()
    };
    let plain = moving(&[]);
    let told = moving(&prompts);
    let truth = harp.perform().unwrap().truth().to_vec();
    let (mut after, mut strays) = (0, Vec::new());
    for m in &told {
        let k = ((m.at_s - 1.0) / 7.0) as usize;
        let since = m.at_s - at(k);
        let begins = prompts[k].at_s;
        let ends = begins + prompts[k].prompt.seconds();
        assert!(
            !(begins..ends).contains(&m.at_s),
            "followed in a prompt: {m:?}"
        );
        after += usize::from(m.at_s > ends);
        let stands = by * ((since - turn_s) / lasts_s).clamp(0.0, 1.0);
        let moved = cents(truth[k].sounding_hz, m.hz);
        if (moved - stands).abs() > 3.0 + m.u95_cents || m.string.to_string() != truth[k].string {
            strays.push(format!(
                "{} {moved:+.1} for {stands:+.1} at {since:.2} s",
                m.string
            ));
        }
    }
    println!(
        "{} words without prompts; {} with, {after} of them after; {} astray {strays:?}",
        plain.len(),
        told.len(),
        strays.len()
    );
    assert!(after > 100, "{after}");
    assert!(100 * strays.len() <= told.len(), "{strays:?}");
}
