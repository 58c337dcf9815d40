//! Strings counted and named, and what pedals and levers reach.

use harp::{Harp, HarpKind, Mechanism, OpenTuning, Position, Setting, Setup, StringName};
use pitch::{Letter, MajorKey, ReferencePitch};

use crate::cases::{Case, check};

#[test]
fn strings_keys_and_levers_are_counted_as_the_trade_counts_them() {
    check("compass", law);
}

fn law(case: &Case) -> Option<Vec<f64>> {
    Some(match case.law.as_str() {
        "strings of a compass" => {
            let compass = case.texts("compass").into_iter();
            compass
                .map(|ends| between(ends).strings().len() as f64)
                .collect()
        }
        "strings of a compass, of each letter" => {
            let harp = between(case.text("compass"));
            let of = |letter| {
                harp.strings()
                    .iter()
                    .filter(|s| s.name.letter == letter)
                    .count()
            };
            let counts = Letter::ALL.map(of);
            [harp.strings().len()]
                .into_iter()
                .chain(counts)
                .map(|count| count as f64)
                .collect()
        }
        "the harp's own numbers" => {
            let same = |pair: &&str| {
                let (own, scientific) = pair.split_once(' ').unwrap();
                let name: StringName = own.parse().unwrap();
                name.to_string() == scientific && name.harp_number() == own
            };
            vec![case.texts("names").iter().filter(|pair| same(pair)).count() as f64]
        }
        "steps on the circle of fifths" => circle_of_fifths(),
        "pedals and notches between keys" => case
            .texts("keys")
            .into_iter()
            .flat_map(pedals_and_notches)
            .collect(),
        "keys of a lever harp" => {
            let open = OpenTuning::from_name(case.text("open")).unwrap();
            let keys: Vec<_> = open.lever_keys().iter().map(ToString::to_string).collect();
            assert_eq!(keys, case.texts("keys"));
            vec![keys.len() as f64]
        }
        "levers to move to natural" => {
            let open = OpenTuning::from_name(case.text("open")).unwrap();
            case.texts("harps")
                .into_iter()
                .map(|harp| levers_to_natural(harp, open))
                .collect()
        }
        "seconds a string" => {
            let strings = Harp::named(case.text("harp")).unwrap().strings().len() as f64;
            case.list("minutes")
                .into_iter()
                .map(|minutes| 60.0 * minutes / strings)
                .collect()
        }
        "strings without discs and pitches in all" => discless(case),
        _ => return None,
    })
}

fn between(ends: &str) -> Harp {
    let (lowest, highest) = ends.split_once(' ').unwrap();
    Harp::between(
        HarpKind::Pedal,
        lowest.parse().unwrap(),
        highest.parse().unwrap(),
    )
    .unwrap()
}

/// Steps, the most pedals and the most and fewest notches that any of them moves.
fn circle_of_fifths() -> Vec<f64> {
    let settings: Vec<_> = MajorKey::all().map(Setting::of_key).collect();
    let moves: Vec<_> = settings
        .windows(2)
        .map(|pair| pair[0].moves_to(&pair[1]))
        .collect();
    let pedals = moves.iter().map(|moves| moves.pedals).max().unwrap();
    let most = moves.iter().map(|moves| moves.notches).max().unwrap();
    let fewest = moves.iter().map(|moves| moves.notches).min().unwrap();
    vec![
        moves.len() as f64,
        f64::from(pedals),
        f64::from(most),
        f64::from(fewest),
    ]
}

fn pedals_and_notches(keys: &str) -> [f64; 2] {
    let (from, to) = keys.split_once(' ').unwrap();
    let setting = |name: &str| {
        let key = MajorKey::all().find(|key| key.to_string() == name).unwrap();
        Setting::of_key(key)
    };
    let moves = setting(from).moves_to(&setting(to));
    [f64::from(moves.pedals), f64::from(moves.notches)]
}

fn levers_to_natural(harp: &str, open: OpenTuning) -> f64 {
    let harp = Harp::named(harp).unwrap().with_open(open).unwrap();
    let mut setup = Setup::open(ReferencePitch::A440);
    let before = harp.standing(&setup).unwrap();
    setup.position = Position::Natural;
    let after = harp.standing(&setup).unwrap();
    before
        .iter()
        .zip(&after)
        .filter(|(before, after)| before.pitch != after.pitch)
        .count() as f64
}

/// Strings without discs, and string-pitches: three for a string with discs, one for one without.
fn discless(case: &Case) -> Vec<f64> {
    let harp = Harp::named(case.text("harp")).unwrap();
    let moved = |mechanism| {
        harp.strings()
            .iter()
            .filter(move |s| s.mechanism == mechanism)
    };
    let names: Vec<_> = moved(Mechanism::Nothing)
        .map(|s| s.name.to_string())
        .collect();
    assert_eq!(names, case.texts("discless"));
    let pitches = 3 * moved(Mechanism::Discs).count() + names.len();
    vec![names.len() as f64, pitches as f64]
}
