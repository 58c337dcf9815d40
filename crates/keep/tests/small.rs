//! What is said of a few strings of which a few things were written: worked through by hand, on an invented harp.
#![allow(clippy::unwrap_used, reason = "a test may fail loudly")]

use diary::{Diary, Entry, HarpKept, HarpKnown, Moment, StringBroken, StringFitted};
use harp::{Field, Figures, Harp, Material, StringName};
use keep::{Age, Intervals, Register, State, Suspected, Use, age, breaks, due, mixed, suspected};

const HARP: &str = "small";

fn name(text: &str) -> StringName {
    text.parse().unwrap()
}

fn day(text: &str) -> Moment {
    Moment::of(&format!("{text}T12:00:00Z").parse().unwrap())
}

/// A harp of which one figure is known: 3C is gut of 1.05 mm.
fn harp() -> Harp {
    let gut = Figures::of(Material::Gut).with(Field::GaugeMm, 1.05);
    let harp = Harp::named("pedal47").unwrap();
    harp.with_figures(name("3C"), gut).unwrap()
}

enum Written {
    Fitted(&'static str, &'static str, Option<(Material, f64)>),
    Broken(&'static str, &'static str),
}

fn known(written: &[Written]) -> HarpKnown {
    let mut diary = Diary::default();
    let kept = HarpKept {
        harp: HARP.to_owned(),
        toml: harp().to_toml(),
    };
    let mut append = |entry| {
        let at = "2026-11-26T18:40:00Z".parse().unwrap();
        diary.append("phone", at, &entry).unwrap();
    };
    append(Entry::Harp(kept));
    for one in written {
        append(match one {
            Written::Fitted(string, on, packet) => Entry::StringFitted(StringFitted {
                harp: HARP.to_owned(),
                string: name(string),
                on: Some(on.parse().unwrap()),
                material: packet.map(|packet| packet.0),
                gauge_mm: packet.map(|packet| packet.1),
                used: false,
                by: "herself".to_owned(),
            }),
            Written::Broken(string, on) => Entry::StringBroken(StringBroken {
                harp: HARP.to_owned(),
                string: name(string),
                on: Some(on.parse().unwrap()),
                place: String::new(),
            }),
        });
    }
    diary.known().harp(HARP).unwrap().clone()
}

#[test]
fn a_gauge_that_is_not_the_harps_is_asked_about() {
    let asked = |material, gauge| {
        let written = [Written::Fitted("3C", "2026-05-01", Some((material, gauge)))];
        let all = suspected(&harp(), &known(&written), day("2026-06-01"));
        all.into_iter().map(|one| one.what).collect::<Vec<_>>()
    };
    let other = Suspected::OtherGauge {
        written_mm: 1.14,
        harp_mm: 1.05,
    };
    assert_eq!(asked(Material::Gut, 1.14), [other]);
    assert_eq!(asked(Material::Gut, 1.06), []);
    assert_eq!(asked(Material::Fluorocarbon, 0.90), [], "meant otherwise");
}

#[test]
fn a_place_that_breaks_again_and_again_is_told() {
    let written = [
        Written::Fitted("2C", "2025-01-10", None),
        Written::Broken("2C", "2026-02-01"),
        Written::Fitted("2C", "2026-02-01", None),
        Written::Broken("2C", "2026-03-03"),
    ];
    let known = known(&written);
    let string = &known.strings[&name("2C")];
    let told = breaks(string, day("2026-04-01"));
    assert_eq!((told.count, told.again_and_again), (2, true));
    assert_eq!(told.days_between, Some(30.0));
    assert!(!breaks(string, day("2027-04-01")).again_and_again);
    assert_eq!(age(string, day("2026-04-01")), Age::NoString);
}

// octaves 0 to 2 yearly for professionals, every two years for students: several guides
#[test]
fn the_top_is_due_sooner_for_who_plays_more() {
    let known = known(&[Written::Fitted("1C", "2025-01-10", None)]);
    let state = |used| {
        let all = due(&harp(), &known, day("2026-06-01"), &Intervals::of(used));
        all.iter().find(|d| d.string == name("1C")).unwrap().state
    };
    assert_eq!(state(Use::Professional), State::Due);
    assert_eq!(state(Use::Student), State::NotYet);
}

#[test]
fn one_new_string_among_old_ones_makes_an_octave_mixed() {
    let written = [
        Written::Fitted("1C", "2025-12-10", None),
        Written::Fitted("1D", "2026-05-20", None),
        Written::Fitted("1E", "2026-05-20", None),
        Written::Fitted("2C", "2026-04-20", None),
        Written::Fitted("2D", "2026-05-20", None),
    ];
    let now = day("2026-06-20");
    let intervals = Intervals::of(Use::Professional);
    let told = mixed(&harp(), &known(&written), now, &intervals);
    assert_eq!(told, [], "half a year apart and less is let be");
    let written = [
        Written::Fitted("1C", "2025-11-10", None),
        Written::Fitted("1D", "2026-05-20", None),
    ];
    let told = mixed(&harp(), &known(&written), now, &intervals);
    let octaves: Vec<_> = told.iter().map(|m| (m.octave, m.register)).collect();
    assert_eq!(octaves, [(1, Register::Top)]);
    assert_eq!(
        (told[0].youngest.0, told[0].oldest.0),
        (name("1D"), name("1C"))
    );
}
