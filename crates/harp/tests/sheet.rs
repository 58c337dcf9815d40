//! The sheet of strings: worked examples, and that nothing is claimed without the player's figures.

#![allow(clippy::unwrap_used, reason = "a test that cannot be set up must stop")]

use harp::{Field, Figure, Harp, StringSheet};
use pitch::ReferencePitch;

const INVENTED: &str = include_str!("harps/invented-lever-harp.toml");

fn line(harp: &Harp, string: &str) -> StringSheet {
    let string = string.parse().unwrap();
    let sheet = harp.sheet(ReferencePitch::A440);
    assert_eq!(sheet.len(), harp.strings().len());
    sheet
        .into_iter()
        .find(|line| line.string == string)
        .unwrap()
}

#[track_caller]
fn check(found: &Figure, expected: f64, tolerance_share: f64) {
    let found = *found.as_ref().unwrap();
    assert!(
        (found / expected - 1.0).abs() < tolerance_share,
        "{found}, not {expected}"
    );
}

#[track_caller]
fn check_blank(found: &Figure, missing: &[Field]) {
    assert_eq!(found.as_ref().unwrap_err().missing, missing);
}

/// Every figure that would say how hard a string is strained.
fn strains(line: &StringSheet) -> [&Figure; 6] {
    let StringSheet {
        tension_n,
        stress_mpa,
        break_share,
        b,
        stretch_cents,
        ..
    } = line;
    [
        tension_n,
        stress_mpa,
        break_share,
        b,
        stretch_cents,
        &line.cents_per_degree,
    ]
}

#[test]
fn a_harp_without_figures_claims_nothing_of_any_string() {
    for built_in in harp::BUILT_IN {
        let harp = Harp::named(built_in.name).unwrap();
        for line in harp.sheet(ReferencePitch::A440) {
            assert!(line.length_mm.is_err() && line.gauge_mm.is_err());
            assert!(
                strains(&line).iter().all(|figure| figure.is_err()),
                "{}",
                line.string
            );
        }
        let load = harp.load(ReferencePitch::A440);
        assert_eq!(load.unknown.len(), harp.strings().len());
        assert_eq!(load.known_n, 0.0);
    }
}

#[test]
fn each_blank_says_which_figures_are_missing() {
    let harp = Harp::named("pedal47").unwrap();
    let c4 = line(&harp, "C4");
    check_blank(&c4.length_mm, &[Field::LengthMm]);
    check_blank(
        &c4.tension_n,
        &[Field::LengthMm, Field::GaugeMm, Field::DensityKgM3],
    );
    assert_eq!(c4.length_mm.unwrap_err().to_string(), "length_mm not given");
    let invented = Harp::from_toml(INVENTED).unwrap();
    check_blank(&line(&invented, "G4").tension_n, &[Field::GaugeMm]);
    // The stress of a plain string does not depend on its gauge.
    assert!(line(&invented, "G4").stress_mpa.is_ok());
    check_blank(
        &line(&invented, "G4").break_share,
        &[Field::BreakingStressMpa],
    );
    // Nylon's modulus over minutes is not its modulus in vibration.
    check_blank(
        &line(&invented, "A5").cents_per_degree,
        &[Field::TurningModulusGpa],
    );
}

// T = µ(2Lf)², σ = 4ρ(Lf)², B = π²EI/(TL²), worked by hand for C4 open: natural C, 261.626 Hz.
#[test]
fn a_plain_string_is_worked_out_from_its_figures() {
    let harp = Harp::from_toml(INVENTED).unwrap();
    let c4 = line(&harp, "C4");
    let speed = 2.0 * 0.610 * 261.6256;
    let area = std::f64::consts::PI * 1.2e-3f64.powi(2) / 4.0;
    check(&c4.tension_n, 1300.0 * area * speed * speed, 1e-6);
    check(&c4.stress_mpa, 1300.0 * speed * speed / 1e6, 1e-6);
    check(&c4.break_share, 1300.0 * speed * speed / 320e6, 1e-6);
    // By the other form of the law: (π²/64)·(6e9/1300)·(1.2e-3)²/(261.626²·0.61⁴).
    check(&c4.b, 1.0815e-4, 1e-4);
    check(&c4.stretch_cents, 0.2808, 1e-3);
    check(&c4.cents_per_degree, 3.094, 1e-3);
    assert!(!c4.b_is_measured);
}

#[test]
fn a_wound_string_is_carried_by_its_core() {
    let harp = Harp::from_toml(INVENTED).unwrap();
    let c2 = line(&harp, "C2");
    let tension = 9.8e-3 * (2.0 * 1.1 * 65.40639f64).powi(2);
    let core = std::f64::consts::PI * 0.6e-3f64.powi(2) / 4.0;
    check(&c2.tension_n, tension, 1e-6);
    check(&c2.stress_mpa, tension / core / 1e6, 1e-6);
    check(&c2.break_share, tension / core / 2200e6, 1e-6);
}

#[test]
fn a_b_that_was_measured_comes_before_one_that_is_computed() {
    let harp = Harp::from_toml(INVENTED).unwrap();
    let a5 = line(&harp, "A5");
    assert!(a5.b_is_measured);
    assert_eq!(a5.b, Ok(4.1e-4));
}

#[test]
fn the_load_says_which_strings_are_not_in_it() {
    let harp = Harp::from_toml(INVENTED).unwrap();
    let load = harp.load(ReferencePitch::A440);
    let known: f64 = ["C2", "C4", "A5"]
        .iter()
        .map(|string| line(&harp, string).tension_n.unwrap())
        .sum();
    assert!((load.known_n - known).abs() < 1e-9);
    assert_eq!(load.unknown.len(), 31);
}

#[test]
fn the_targets_are_those_that_a_string_can_reach() {
    let reaches = |harp: &Harp, string: &str| {
        let targets = line(harp, string).target_hz;
        [targets.flat, targets.natural, targets.sharp].map(|target| target.is_some())
    };
    let pedal = Harp::named("pedal47").unwrap();
    assert_eq!(reaches(&pedal, "A4"), [true, true, true]);
    assert_eq!(line(&pedal, "A4").target_hz.natural, Some(440.0));
    assert!(line(&pedal, "C1").discless && !line(&pedal, "E1").discless);
    let lever = Harp::from_toml(INVENTED).unwrap();
    assert_eq!(reaches(&lever, "A4"), [true, true, false]); // A flat, lever to A
    assert_eq!(reaches(&lever, "C4"), [false, true, true]); // C, lever to C sharp
    assert_eq!(reaches(&lever, "C2"), [false, true, false]); // no lever
    assert!(line(&lever, "C4").lever && !line(&lever, "C2").lever);
    let free = Harp::named("semitones").unwrap();
    assert_eq!(reaches(&free, "F#3"), [false, false, true]);
    assert_eq!(reaches(&free, "F3"), [false, true, false]);
}
