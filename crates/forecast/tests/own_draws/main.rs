//! Harps drawn from the forecast's own idea of them: its intervals must hold the truth 93 to 97 times in 100.

#![allow(
    clippy::disallowed_macros,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may fail loudly and tells what was found; a long run is asked for from outside"
)]

#[path = "../../../keep/tests/year/draws.rs"]
#[allow(dead_code, reason = "the lived harps need more of it")]
mod draws;

use std::collections::BTreeMap;

use diary::{Air, HarpKnown, Moment, Point, StringKnown};
use draws::Draws;
use forecast::{AirNow, Ask, Prior, learn};
use harp::{Harp, Setup, StringName};
use pitch::ReferencePitch;

const TOLERANCE: f64 = 3.0;

/// One string as it was drawn.
struct Drawn {
    drive: [f64; 3],
    falls_back: f64,
    wire: bool,
    target_hz: f64,
    off: f64,
    turned: f64,
}

struct Harps {
    harp: Harp,
    names: Vec<StringName>,
    targets: BTreeMap<StringName, f64>,
}

/// A figure of Student's t with four degrees of freedom.
fn t4(draws: &mut Draws) -> f64 {
    let squares: f64 = (0..4).map(|_| draws.normal().powi(2)).sum();
    draws.normal() / (squares / 4.0).sqrt()
}

fn drawn(harps: &Harps, draws: &mut Draws) -> Vec<Drawn> {
    let kinds = [Prior::other(), Prior::wire()];
    let all = kinds.map(|prior| {
        let drive = prior.together.map(|(mean, sd)| mean + sd * draws.normal());
        (
            drive,
            prior.falls_back.0 + prior.falls_back.1 * draws.normal(),
            prior,
        )
    });
    let strings = harps.harp.strings().iter().map(|string| {
        let (drive, falls, prior) = &all[usize::from(string.wire)];
        let own = |at: usize, draws: &mut Draws| drive[at] + prior.apart[at] * draws.normal();
        Drawn {
            drive: [own(0, draws), own(1, draws), own(2, draws)],
            falls_back: falls + prior.falls_back.2 * draws.normal(),
            wire: string.wire,
            target_hz: harps.targets[&string.name],
            off: 8.0 * draws.normal(),
            turned: 0.0,
        }
    });
    strings.collect()
}

/// Lives so many days; after these numbers of rounds, how often the intervals held.
fn lives(harps: &Harps, seed: u64, after: &[usize], held: &mut [(usize, usize)]) {
    let mut draws = Draws::new(seed);
    let mut strings = drawn(harps, &mut draws);
    let mut known = HarpKnown {
        harp: "a drawn harp".to_owned(),
        toml: None,
        strings: harps
            .names
            .iter()
            .map(|name| (*name, StringKnown::default()))
            .collect(),
        pedals: Vec::new(),
        checks: Vec::new(),
        a4_hz: None,
        visits: Vec::new(),
        rounds: 0,
    };
    let mut air: Vec<(Moment, Air)> = Vec::new();
    let mut when = Moment::of_unix_s(1.7e9);
    let mut before = (20.0, 50.0);
    for round in 0..=*after.last().unwrap() {
        let days = draws.between(0.2, 3.0);
        when = when.plus_s(days * 86_400.0);
        let now = (
            before.0 + 1.5 * draws.normal(),
            before.1 + 5.0 * draws.normal(),
        );
        let prior = [Prior::other(), Prior::wire()];
        let growth = days.powf(0.7);
        let common =
            [0, 1].map(|at: usize| prior[at].wanders_together * growth.sqrt() * t4(&mut draws));
        if round > 0 {
            for string in &mut strings {
                let lasting = days / (1.0 + days / 14.0);
                let drive = [now.0 - before.0, now.1 - before.1, lasting];
                let line: f64 = (0..3).map(|at| drive[at] * string.drive[at]).sum();
                let own = prior[usize::from(string.wire)].wanders * growth.sqrt() * t4(&mut draws);
                string.off += line - string.falls_back * string.turned
                    + common[usize::from(string.wire)]
                    + own;
            }
        }
        air.push((
            when,
            Air {
                harp: None,
                temperature_c: Some(now.0),
                humidity_percent: Some(now.1),
            },
        ));
        if let Some(place) = after.iter().position(|n| *n == round) {
            let learned = learn(&harps.harp, &known, &air);
            let ask = Ask {
                known: &known,
                air: &air,
                targets: &harps.targets,
                when,
                air_then: AirNow {
                    temperature_c: Some(now.0),
                    humidity_percent: Some(now.1),
                },
            };
            for (told, truth) in learned.ahead(&ask).strings.iter().zip(&strings) {
                held[place].0 +=
                    usize::from((told.expected_cents - truth.off).abs() <= told.u95_cents);
                held[place].1 += 1;
            }
        }
        before = now;
        for (name, string) in harps.names.iter().zip(&mut strings) {
            let history = &mut known.strings.get_mut(name).unwrap().history;
            let mut write = |when: Moment, off: f64, found: bool, left: bool| {
                history.push(Point {
                    when,
                    heard_hz: pitch::raise(string.target_hz, off),
                    target_hz: string.target_hz,
                    off_cents: off,
                    u95_cents: 0.6,
                    b: None,
                    t60_s: None,
                    level_dbfs: None,
                    raised: 0,
                    found,
                    left,
                    string: 0,
                });
            };
            let read = |off: f64, draws: &mut Draws| off + 0.6 / 1.96 * draws.normal();
            let out = string.off.abs() > TOLERANCE;
            write(when, read(string.off, &mut draws), true, !out);
            string.turned = 0.0;
            if out {
                let left = 0.7 * draws.normal();
                string.turned = left - string.off;
                string.off = left;
                write(when.plus_s(5.0), read(left, &mut draws), false, true);
            }
        }
    }
}

#[test]
fn on_harps_of_its_own_idea_intervals_hold_as_often_as_they_say() {
    let harp = Harp::named("pedal47").unwrap();
    let standing = harp.standing(&Setup::open(ReferencePitch::A440)).unwrap();
    let names: Vec<StringName> = harp.strings().iter().map(|s| s.name).collect();
    let targets = names
        .iter()
        .copied()
        .zip(standing.iter().map(|s| s.target_hz))
        .collect();
    let harps = Harps {
        harp,
        names,
        targets,
    };
    let after = [1, 3, 10, 40];
    let mut held = [(0, 0); 4];
    let harps_lived = if std::env::var("SEVENFLATS_LONG").is_ok() {
        1500
    } else {
        600
    };
    for seed in 0..harps_lived {
        lives(&harps, 70_000 + seed, &after, &mut held);
    }
    for (rounds, (held, of)) in after.iter().zip(held) {
        let share = held as f64 / of as f64;
        println!("after {rounds} rounds: {share:.4} of {of}");
        assert!(
            (0.93..=0.97).contains(&share),
            "after {rounds} rounds {share:.4} of {of}"
        );
    }
}
