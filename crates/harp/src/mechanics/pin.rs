//! The pin: how much a degree of the tuning key is worth.

use std::f64::consts::LN_2;

/// Cents that one degree of pin is worth: (1200/ln 2)·½·(E/σ)·(r·π/180)/L, with the pin's radius
/// r and the whole string from knot to pin L, in m.
///
/// The modulus is the one of minutes (turning a pin), not of sound: for gut and steel they are
/// the same, nylon's is the lower. Friction at nut and pins is left out; the frame stays rigid.
///
/// ```
/// let gut = harp::mechanics::cents_per_degree_of_pin(6.0e9, 147e6, 3.4e-3, 0.74);
/// assert!((gut - 2.8).abs() < 0.05);
/// ```
pub fn cents_per_degree_of_pin(
    modulus_pa: f64,
    stress_pa: f64,
    pin_radius_m: f64,
    total_length_m: f64,
) -> f64 {
    let strain_per_degree = pin_radius_m * 1f64.to_radians() / total_length_m;
    600.0 / LN_2 * (modulus_pa / stress_pa) * strain_per_degree
}
