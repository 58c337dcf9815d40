//! Writes an invented diary for the checks of the page: `page_diary FILE [ROUNDS]`, a round a day up to 25 November 2026.
//!
//! Nobody kept it: harp, strings, faults and figures are made up. One pin slips (3A), one octave-2 string is old (2E), one
//! gauge is written otherwise than the harp's file has it (3C), and two spares lie in the drawer for 4G.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::unwrap_used,
    reason = "a program for checks, which writes a file and may fail loudly"
)]

use diary::{
    Air, Entry, HarpKept, Moment, RoundBegun, RoundOver, Spares, StringFitted, StringOver, Visit,
    Writer,
};
use harp::{Field, Figures, Harp, Material, Setup, StringName};
use pitch::ReferencePitch;
use tuning::round::{Kept, Plan, State};

/// The name that the page has for a harp that was chosen there.
const HARP: &str = "pedal C1 G7";
const DAY_S: f64 = 86_400.0;

fn main() {
    let mut words = std::env::args().skip(1);
    let file = words.next().unwrap();
    let rounds = words.next().map_or(60, |word| word.parse().unwrap());
    std::fs::write(file, lines(rounds).join("\n") + "\n").unwrap();
}

fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

/// A harp of which two strings' figures are known.
fn harp() -> Harp {
    let gut = |gauge_mm, length_mm| {
        Figures::of(Material::Gut)
            .with(Field::GaugeMm, gauge_mm)
            .with(Field::LengthMm, length_mm)
            .with(Field::DensityKgM3, 1300.0)
    };
    let harp = Harp::named("pedal47").unwrap();
    let harp = harp.with_figures(name("G3"), gut(1.45, 800.0)).unwrap();
    harp.with_figures(name("C5"), gut(1.05, 360.0)).unwrap()
}

/// How far a string had moved in a day: the weather, the same for all, and a little of its own; one slips.
fn moved(day: usize, at: usize, slips: bool) -> f64 {
    let weather = 2.5 * (day as f64 / 9.0).sin();
    let own = ((day * 31 + at * 17) % 97) as f64 / 97.0 - 0.5;
    weather + own - if slips { 9.0 } else { 0.0 }
}

fn lines(rounds: usize) -> Vec<String> {
    let (harp, setup) = (harp(), Setup::open(ReferencePitch::A440));
    let plan = Plan::of(&harp, &setup).unwrap();
    let begun = RoundBegun::of(HARP, &harp, &setup, &plan, 0.6);
    let first = Moment::of(&"2026-11-26T00:00:00Z".parse().unwrap()).plus_s(-DAY_S * rounds as f64);
    let mut writer = Writer::new("invented", 1).unwrap();
    let mut lines = Vec::new();
    let mut write = |when: Moment, entry: &Entry| {
        let id = writer.next().clone();
        lines.push(writer.line(&when.at(), entry).unwrap());
        id
    };
    for entry in at_first(&harp) {
        write(first, &entry);
    }
    for day in 0..rounds {
        let at = |hour: f64| first.plus_s(DAY_S * day as f64 + 3600.0 * hour);
        let round = write(at(18.0), &Entry::Round(begun.clone()));
        let strings = plan.strings.iter().enumerate();
        let over = RoundOver {
            round,
            finished: true,
            minutes: 6.25,
            left: 0,
            again: Vec::new(),
            strings: strings
                .map(|(at, planned)| {
                    let string = planned.standing.string;
                    let slips = string == name("A4") && day + 25 > rounds;
                    told(
                        string,
                        planned.standing.target_hz,
                        at,
                        moved(day, at, slips),
                    )
                })
                .collect(),
        };
        write(at(18.2), &Entry::RoundOver(over));
        let air = Air {
            harp: None,
            temperature_c: Some(20.0 + (day % 7) as f64 / 2.0),
            humidity_percent: Some(45.0 + 8.0 * (day as f64 / 9.0).sin()),
        };
        write(at(18.3), &Entry::Air(air));
    }
    lines
}

/// Found moved, and tuned where that is more than two cents.
fn told(string: StringName, target_hz: f64, at: usize, off: f64) -> StringOver {
    let kept = |at_s: f64, off_cents: f64| Kept {
        at_s,
        target_hz,
        heard_hz: target_hz * (off_cents / 1200.0).exp2(),
        off_cents,
        u95_cents: 0.4 + off_cents.abs() / 37.0,
        b: Some(1.3e-4),
        aside: None,
    };
    let found = kept(7.0 * at as f64, off);
    let turned = off.abs() > 2.0;
    StringOver {
        string,
        before: Some(found),
        after: Some(match turned {
            true => kept(7.0 * at as f64 + 4.1, 0.2),
            false => found,
        }),
        plucks: if turned { 3 } else { 1 },
        state: State::InTune,
        fitted: false,
    }
}

/// The harp, its strings, its drawer.
fn at_first(harp: &Harp) -> Vec<Entry> {
    let fitted = |string: &str, on: &str, gauge_mm| {
        Entry::StringFitted(StringFitted {
            harp: HARP.to_owned(),
            string: name(string),
            on: Some(on.parse().unwrap()),
            material: Some(Material::Gut),
            gauge_mm,
            used: false,
            by: "herself".to_owned(),
        })
    };
    let spares = |string: &str, gauge_mm, change| {
        Entry::Spares(Spares {
            harp: Some(HARP.to_owned()),
            string: Some(name(string)),
            material: Some(Material::Gut),
            gauge_mm: Some(gauge_mm),
            bought: Some("2026-09-01".parse().unwrap()),
            change,
        })
    };
    vec![
        Entry::Harp(HarpKept {
            harp: HARP.to_owned(),
            toml: harp.to_toml(),
        }),
        fitted("E6", "2019-02-01", None),
        fitted("G3", "2026-02-01", Some(1.45)),
        fitted("C5", "2026-03-01", Some(1.20)),
        spares("G3", 1.45, 2),
        spares("E5", 0.97, 1),
        Entry::Visit(Visit {
            harp: HARP.to_owned(),
            on: Some("2026-01-20".parse().unwrap()),
            who: "the technician".to_owned(),
            done: "regulated".to_owned(),
            note: String::new(),
        }),
    ]
}
