//! The synthetic harp in the crate is the one in the reference data, and hangs together (C30).

use harp::mechanics::{
    bending_stiffness_n_m2, octave_stretch_cents, stiffness_b, stress_pa, tension_n,
};
use harp::synthetic::{SYNTHETIC_STRINGS, synthetic_harp};
use harp::{Harp, Material};
use pitch::ReferencePitch;
use toml_edit::{Document, Item};

use crate::cases::{read, rows};

fn number(row: &[String], column: usize) -> f64 {
    row[column].parse().unwrap()
}

/// What a number printed to this many decimals may be off by.
fn near(found: f64, printed: f64, tolerance: f64) -> bool {
    (found - printed).abs() <= tolerance
}

#[test]
fn the_crates_figures_are_those_of_the_reference() {
    let rows = rows("synthetic-harp", "data.csv");
    assert_eq!(rows.len(), SYNTHETIC_STRINGS.len());
    for (row, string) in rows.iter().zip(&SYNTHETIC_STRINGS) {
        assert_eq!(string.name.to_string(), row[0]);
        assert!(near(string.natural_hz(), number(row, 1), 0.006), "{row:?}");
        assert_eq!(string.natural_length_mm, number(row, 2));
        assert_eq!(string.material.as_str(), row[3]);
        assert_eq!(string.carrying_diameter_mm, number(row, 4));
        assert_eq!(string.linear_density_g_m, number(row, 5));
        assert_eq!(string.tension_n, number(row, 6));
        assert_eq!(string.b, number(row, 9));
    }
}

/// The printed lengths and diameters are rounded to 1 mm and 0.01 mm, so the laws come out within
/// the share that this leaves: twice that of the length, four times that of the diameter.
#[test]
fn the_synthetic_figures_obey_the_laws_of_a_string() {
    for (row, string) in rows("synthetic-harp", "data.csv")
        .iter()
        .zip(&SYNTHETIC_STRINGS)
    {
        let (length, diameter) = (string.natural_length_mm, string.carrying_diameter_mm);
        let (length_share, diameter_share) = (0.5 / length, 0.005 / diameter);
        let tension = tension_n(
            string.linear_density_g_m / 1e3,
            length / 1e3,
            string.natural_hz(),
        );
        let rounding = 0.5 / string.tension_n;
        let close = |found: f64, printed: f64, share: f64| (found / printed - 1.0).abs() < share;
        assert!(
            close(
                tension,
                string.tension_n,
                2.0 * length_share + rounding + 1e-3
            ),
            "{row:?}"
        );
        let stress = stress_pa(string.tension_n, diameter / 1e3) / 1e6;
        let stress_share = 2.0 * diameter_share + rounding + 0.5 / number(row, 7) + 1e-3;
        assert!(
            close(stress, number(row, 7), stress_share),
            "{row:?}: {stress}"
        );
        let per_length = string.tension_n / length * 1e3;
        let share = length_share + rounding + 0.5 / number(row, 8) + 1e-3;
        assert!(close(per_length, number(row, 8), share), "{row:?}");
        let stretch = octave_stretch_cents(string.b, string.b, (2, 1));
        assert!(near(stretch, number(row, 10), 0.015), "{row:?}: {stretch}");
        let modulus = match string.material {
            Material::Wound => 200e9,
            Material::Gut => 6e9,
            _ => harp::mechanics::nylon_modulus_pa(number(row, 7) * 1e6),
        };
        let stiffness = bending_stiffness_n_m2(modulus, diameter / 1e3);
        let b = stiffness_b(stiffness, string.tension_n, length / 1e3);
        let share = 4.0 * diameter_share + 2.0 * length_share + rounding + 0.006;
        assert!(close(b, string.b, share), "{row:?}: {b}");
    }
}

#[test]
fn the_tensions_add_up_to_the_stated_load_inside_the_published_one() {
    let text = read("synthetic-harp", "SOURCE.toml");
    let source = Document::parse(&*text).unwrap();
    let stated = |key: &str| source.get(key).and_then(Item::as_integer).unwrap() as f64;
    let total: f64 = SYNTHETIC_STRINGS
        .iter()
        .map(|string| string.tension_n)
        .sum();
    assert!(
        (total - stated("total_tension_n")).abs() <= stated("total_tolerance_n"),
        "{total}"
    );
    let believed = source
        .get("believed_total_n")
        .and_then(Item::as_array)
        .unwrap();
    let believed: Vec<_> = believed
        .iter()
        .map(|value| value.as_integer().unwrap())
        .collect();
    assert!(
        (believed[0] as f64..believed[1] as f64).contains(&total),
        "{total}"
    );
}

/// A string with discs pulls as hard at flat as at natural: the disc shortens it, nothing else.
#[test]
fn the_harp_made_of_it_bears_the_same_load_but_for_the_strings_set_by_key() {
    let harp = synthetic_harp().unwrap();
    let load = harp.load(ReferencePitch::A440);
    assert!(load.unknown.is_empty());
    let discless = ["C1", "D1", "G7"];
    let expected: f64 = SYNTHETIC_STRINGS
        .iter()
        .map(|string| {
            let flat = discless.contains(&string.name.to_string().as_str());
            string.tension_n * if flat { (-2.0f64 / 12.0).exp2() } else { 1.0 }
        })
        .sum();
    assert!(
        (load.known_n / expected - 1.0).abs() < 0.002,
        "{} N, not {expected}",
        load.known_n
    );
}

#[test]
fn it_says_that_it_is_synthetic_and_nothing_of_breaking() {
    let harp: Harp = synthetic_harp().unwrap();
    assert!(harp.name().is_some_and(|name| name.contains("synthetic")));
    assert!(
        harp.sheet(ReferencePitch::A440)
            .iter()
            .all(|line| line.break_share.is_err())
    );
}
