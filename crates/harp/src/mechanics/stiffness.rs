//! Stiffness: the partials of a real string stand above whole multiples.
//!
//! f_n = n·f₀·√(1 + B·n²) (H. Fletcher, JASA 36 (1964) 203, pinned ends).

use std::f64::consts::{LN_2, PI};

/// Bending stiffness EI in N·m² of a round wire, or of a wound string's core: Eπd⁴/64.
///
/// ```
/// let gut = harp::mechanics::bending_stiffness_n_m2(6.0e9, 1.45e-3);
/// assert!((gut - 1.302e-3).abs() < 1e-6);
/// ```
pub fn bending_stiffness_n_m2(modulus_pa: f64, diameter_m: f64) -> f64 {
    modulus_pa * PI * diameter_m.powi(4) / 64.0
}

/// Inharmonicity B of a string: π²EI/(TL²), dimensionless.
///
/// For a wound string EI is the core's and T carries the whole mass: a first-order rule; the bare
/// ends of the winding shift partials besides (P. Chumnantas, Univ. Edinburgh 1995).
///
/// ```
/// let guitar_g = harp::mechanics::stiffness_b(310e-6, 58.3, 0.65);
/// assert!((guitar_g - 1.242e-4).abs() < 1e-6);
/// ```
pub fn stiffness_b(bending_stiffness_n_m2: f64, tension_n: f64, length_m: f64) -> f64 {
    PI * PI * bending_stiffness_n_m2 / (tension_n * length_m * length_m)
}

/// Inharmonicity B of a plain round string from its pitch instead of its tension:
/// (π²/64)·(E/ρ)·d²/(f²L⁴), the same law with T = πρd²(Lf)² put in.
///
/// ```
/// let gut = harp::mechanics::stiffness_b_from_pitch(6.0e9, 1300.0, 1.45e-3, 261.63, 0.640);
/// assert!((gut - 1.303e-4).abs() < 1e-7);
/// ```
pub fn stiffness_b_from_pitch(
    modulus_pa: f64,
    density_kg_m3: f64,
    diameter_m: f64,
    hz: f64,
    length_m: f64,
) -> f64 {
    PI * PI / 64.0 * (modulus_pa / density_kg_m3) * diameter_m.powi(2)
        / (hz.powi(2) * length_m.powi(4))
}

/// Frequency in Hz of partial `n` (from 1): n·f₀·√(1 + B·n²), f₀ the ideal string's.
///
/// ```
/// let first = harp::mechanics::partial_hz(2087.9, 7.6e-3, 1);
/// assert!((first - 2095.8).abs() < 0.1);
/// ```
pub fn partial_hz(f0_hz: f64, b: f64, n: u32) -> f64 {
    let n = f64::from(n);
    n * f0_hz * (1.0 + b * n * n).sqrt()
}

/// Cents by which partial `n` (from 1) stands above n times the first partial.
///
/// ```
/// let second = harp::mechanics::partial_cents_above_first(1.2e-4, 2);
/// assert!((second - 0.312).abs() < 0.005);
/// ```
pub fn partial_cents_above_first(b: f64, n: u32) -> f64 {
    let n = f64::from(n);
    600.0 * ((1.0 + b * n * n) / (1.0 + b)).log2()
}

/// The B of a string whose partial `n` stands so many cents above n·f₀ (the ideal string's
/// multiple, not the first partial's): (2^(cents/600) − 1)/n².
///
/// ```
/// let piano_c4 = harp::mechanics::b_from_partial_cents(2, 1.2);
/// assert!((piano_c4 - 3.47e-4).abs() < 1e-6);
/// ```
pub fn b_from_partial_cents(n: u32, cents: f64) -> f64 {
    (cents * LN_2 / 600.0).exp_m1() / f64::from(n).powi(2)
}
