//! The laws of a stretched string against published and worked examples.

use harp::mechanics::{
    b_from_partial_cents, bending_stiffness_n_m2, cents_per_degree_of_pin, frequency_hz,
    linear_density_kg_m, nylon_modulus_pa, octave_stretch_cents, overpull_cents,
    partial_cents_above_first, partial_hz, shortening_share, steel_warmth_share, stiffness_b,
    stiffness_b_from_pitch, stress_from_pitch_pa, stress_pa, tension_change_share, tension_n,
    wave_impedance_kg_s,
};
use pitch::{cents, raise};

use crate::cases::{Case, cases, check};

#[test]
fn the_laws_of_a_string_give_the_published_figures() {
    check("string-mechanics", law);
}

#[test]
fn two_ways_to_the_same_stiffness_agree() {
    let mut compared = 0;
    for case in cases("string-mechanics") {
        let Some(share) = case.ways_agree_share else {
            continue;
        };
        let ways = law(&case).unwrap();
        assert!(
            (ways[0] / ways[1] - 1.0).abs() < share,
            "{}: {ways:?}",
            case.id
        );
        compared += 1;
    }
    assert!(compared > 0, "no case was found");
}

fn law(case: &Case) -> Option<Vec<f64>> {
    by_tension(case)
        .or_else(|| by_pitch(case))
        .or_else(|| by_share(case))
}

/// Laws that start from a tension.
fn by_tension(case: &Case) -> Option<Vec<f64>> {
    let get = |key| case.get(key);
    let diameter = || get("diameter_mm") * 1e-3;
    let length = || get("length_m");
    let ideal = || {
        let density = linear_density_kg_m(get("density_kg_m3"), diameter());
        frequency_hz(get("tension_n"), density, length())
    };
    let b = || {
        let stiffness = bending_stiffness_n_m2(get("modulus_gpa") * 1e9, diameter());
        stiffness_b(stiffness, get("tension_n"), length())
    };
    Some(match case.law.as_str() {
        "pitch of a plain string" => vec![ideal()],
        "pitch of a string by its mass" => {
            let density = get("mass_g") * 1e-3 / length();
            vec![frequency_hz(get("tension_n"), density, length())]
        }
        "first partial of a plain string" => vec![partial_hz(ideal(), b(), 1)],
        "cents of the first partial of a plain string below a pitch" => {
            vec![cents(partial_hz(ideal(), b(), 1), get("published_hz"))]
        }
        "B of a plain string" => vec![b()],
        "B from bending stiffness" => {
            vec![stiffness_b(
                get("bending_stiffness_n_m2"),
                get("tension_n"),
                length(),
            )]
        }
        _ => return None,
    })
}

/// Laws that start from a pitch.
fn by_pitch(case: &Case) -> Option<Vec<f64>> {
    let get = |key| case.get(key);
    let diameter = || get("diameter_mm") * 1e-3;
    let density = || get("density_kg_m3");
    let modulus = || get("modulus_gpa") * 1e9;
    let mass = || linear_density_kg_m(density(), diameter());
    let tension = || tension_n(mass(), get("length_m"), get("hz"));
    let stress = || stress_from_pitch_pa(density(), get("length_m"), get("hz"));
    let b = || {
        stiffness_b(
            bending_stiffness_n_m2(modulus(), diameter()),
            tension(),
            get("length_m"),
        )
    };
    Some(match case.law.as_str() {
        "stress of a plain string at a pitch, and nylon's modulus there" => {
            vec![stress() / 1e6, nylon_modulus_pa(stress()) / 1e9]
        }
        "tension and stress of a plain string at a pitch" => {
            vec![tension(), stress_pa(tension(), diameter()) / 1e6]
        }
        "tension, B and impedance of a plain string at a pitch" => {
            vec![tension(), b(), wave_impedance_kg_s(tension(), mass())]
        }
        "stiffness of a partial by two ways" => {
            let (length, hz) = (get("length_m"), get("hz"));
            let direct = stiffness_b_from_pitch(modulus(), density(), diameter(), hz, length);
            let square = get("partial").powi(2);
            vec![b() * square, direct * square]
        }
        "constant of stiffness in cents" => {
            // Everything one centimetre and one hertz: cents = 600/ln 2 · B, to first order.
            let b = stiffness_b_from_pitch(get("modulus_over_density"), 1.0, 1.0, 1.0, 1.0);
            vec![600.0 / std::f64::consts::LN_2 * b]
        }
        _ => return None,
    })
}

/// Laws that start from a share, a B or a number of semitones.
fn by_share(case: &Case) -> Option<Vec<f64>> {
    let get = |key| case.get(key);
    let from_partial = || b_from_partial_cents(get("partial") as u32, get("cents"));
    Some(match case.law.as_str() {
        "B from a partial above a multiple of f0" => vec![from_partial()],
        "B from a partial, so many semitones up" => {
            vec![from_partial() * (get("semitones") / get("doubling_semitones")).exp2()]
        }
        "cents of partials above multiples of the first" => {
            let partials = case.list("partials").into_iter();
            partials
                .map(|n| partial_cents_above_first(get("b"), n as u32))
                .collect()
        }
        "octave stretch at the pairs 2:1, 4:2, 6:3" => {
            let pairs = [(2, 1), (4, 2), (6, 3)];
            pairs
                .map(|pair| octave_stretch_cents(get("b"), get("b"), pair))
                .to_vec()
        }
        "steel one degree warmer" => {
            let (modulus, stress) = (get("modulus_gpa") * 1e9, get("stress_mpa") * 1e6);
            let share = steel_warmth_share(modulus, stress, 1.0);
            vec![100.0 * share, cents(1.0, 1.0 + share)]
        }
        "cents for a share of tension" => {
            let at = |share: f64| frequency_hz(100.0 * (1.0 + share), 1e-3, 0.5);
            case.list("shares")
                .into_iter()
                .map(|share| cents(at(0.0), at(share)))
                .collect()
        }
        "cents for another length at the same tension" => {
            let at = |key| frequency_hz(240.0, 2e-3, get(key) * 1e-3);
            vec![cents(at("from_mm"), at("to_mm"))]
        }
        "shortening for one and two semitones" => [1, 2]
            .map(|semitones| 100.0 * shortening_share(semitones))
            .to_vec(),
        "length left for one and two semitones" => [1, 2]
            .map(|semitones| 1.0 - shortening_share(semitones))
            .to_vec(),
        "growth of tension from one pitch to another in per cent" => {
            vec![100.0 * tension_change_share(get("from_hz"), get("to_hz"))]
        }
        "tension over tension for semitones" => {
            let over =
                |semitones| 1.0 + tension_change_share(440.0, raise(440.0, semitones * 100.0));
            case.list("semitones").into_iter().map(over).collect()
        }
        "overpull" => vec![overpull_cents(get("flat_cents"), get("fall_back_share"))],
        "cents per degree of pin" => vec![cents_per_degree_of_pin(
            get("modulus_gpa") * 1e9,
            get("stress_mpa") * 1e6,
            get("pin_radius_mm") * 1e-3,
            get("total_length_m"),
        )],
        _ => return None,
    })
}
