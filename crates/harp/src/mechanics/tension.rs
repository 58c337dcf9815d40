//! Tension and pitch: the law of Mersenne and Taylor.

use std::f64::consts::PI;

/// Mass per length in kg/m of a plain round string: ρπd²/4.
///
/// ```
/// let gut = harp::mechanics::linear_density_kg_m(1300.0, 1.45e-3);
/// assert!((gut - 2.147e-3).abs() < 1e-6);
/// ```
pub fn linear_density_kg_m(density_kg_m3: f64, diameter_m: f64) -> f64 {
    density_kg_m3 * PI * diameter_m * diameter_m / 4.0
}

/// Tension in N that brings a string to `hz`: T = µ(2Lf)² (Taylor 1713; Eq. (1) of N. Lynch-Aird
/// & J. Woodhouse, Materials 10 (2017) 497).
///
/// ```
/// let gut = harp::mechanics::tension_n(2.147e-3, 0.640, 261.63);
/// assert!((gut - 240.8).abs() < 0.1);
/// ```
pub fn tension_n(linear_density_kg_m: f64, length_m: f64, hz: f64) -> f64 {
    linear_density_kg_m * (2.0 * length_m * hz).powi(2)
}

/// Pitch in Hz of an ideal string under a tension: f = √(T/µ)/(2L), stiffness left out.
///
/// ```
/// let hz = harp::mechanics::frequency_hz(670.0, 3.93e-3 / 0.62, 0.62);
/// assert!((hz - 262.19).abs() < 0.1);
/// ```
pub fn frequency_hz(tension_n: f64, linear_density_kg_m: f64, length_m: f64) -> f64 {
    (tension_n / linear_density_kg_m).sqrt() / (2.0 * length_m)
}

/// Share by which the tension grows when a string of fixed length goes from one pitch to another:
/// (f₂/f₁)² − 1; 3.0 for an octave up, negative when it comes down.
///
/// ```
/// let a_442 = harp::mechanics::tension_change_share(440.0, 442.0);
/// assert!((100.0 * a_442 - 0.911).abs() < 0.001); // per cent
/// ```
pub fn tension_change_share(from_hz: f64, to_hz: f64) -> f64 {
    (to_hz / from_hz).powi(2) - 1.0
}

/// Wave impedance in kg/s: Z₀ = √(Tµ) (Woodhouse & Lynch-Aird, Acta Acust. united Acust. 105
/// (2019) 516, Eq. (8)).
///
/// ```
/// let gut = harp::mechanics::wave_impedance_kg_s(240.75, 2.1467e-3);
/// assert!((gut - 0.7189).abs() < 1e-3);
/// ```
pub fn wave_impedance_kg_s(tension_n: f64, linear_density_kg_m: f64) -> f64 {
    (tension_n * linear_density_kg_m).sqrt()
}
