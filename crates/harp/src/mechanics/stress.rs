//! Stress: why a plain string breaks at a pitch, whatever its gauge.

use std::f64::consts::PI;

/// Stress in Pa of a round string or core under a tension: T/(πd²/4). For a wound string the
/// core's diameter: the wrap carries next to nothing.
///
/// ```
/// let f3 = harp::mechanics::stress_pa(766.0, 1.049e-3);
/// assert!((f3 / 1e6 - 886.0).abs() < 1.0);
/// ```
pub fn stress_pa(tension_n: f64, diameter_m: f64) -> f64 {
    tension_n / (PI * diameter_m * diameter_m / 4.0)
}

/// Stress in Pa of a plain string at a pitch: 4ρ(Lf)², of any gauge (J. Woodhouse & N. Lynch-Aird,
/// Acta Acust. united Acust. 105 (2019) 516, Eqs (18)–(19)).
///
/// ```
/// let nylon = harp::mechanics::stress_from_pitch_pa(1070.0, 0.65, 327.5);
/// assert!((nylon / 1e6 - 193.95).abs() < 0.1);
/// ```
pub fn stress_from_pitch_pa(density_kg_m3: f64, length_m: f64, hz: f64) -> f64 {
    4.0 * density_kg_m3 * (length_m * hz).powi(2)
}

/// Young's modulus in Pa of nylon at the speed of sound's vibration, under a stress in Pa:
/// 4.5 GPa + 39σ (Woodhouse & Lynch-Aird 2019, Eq. (16), read second-hand). Nylon only: gut keeps
/// one modulus at every stress.
///
/// ```
/// let modulus = harp::mechanics::nylon_modulus_pa(193.95e6);
/// assert!((modulus / 1e9 - 12.06).abs() < 0.01);
/// ```
pub fn nylon_modulus_pa(stress_pa: f64) -> f64 {
    4.5e9 + 39.0 * stress_pa
}
