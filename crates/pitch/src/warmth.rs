//! What warm air does to the winds she tunes with: sound travels faster, and they go up.

/// Zero of the Celsius scale, in kelvin.
const KELVIN: f64 = 273.15;

/// Speed of sound in dry air in m/s at a temperature in °C (above −273): 331.3·√(1 + t/273.15),
/// the ideal gas law (from memory; compare Cramer, JASA 93 (1993) 2510).
///
/// ```
/// assert!((pitch::speed_of_sound_m_s(20.0) - 343.2).abs() < 0.1);
/// ```
pub fn speed_of_sound_m_s(celsius: f64) -> f64 {
    331.3 * (1.0 + celsius / KELVIN).sqrt()
}

/// Cents by which a wind instrument rises for one more degree of its air at `celsius`:
/// 600/(ln 2·T), T in kelvin, from the gas law; the metal's own expansion (about 1/20 of it,
/// the other way) is left out.
///
/// ```
/// assert!((pitch::wind_cents_per_degree(20.0) - 2.953).abs() < 0.005);
/// ```
pub fn wind_cents_per_degree(celsius: f64) -> f64 {
    600.0 / (std::f64::consts::LN_2 * (celsius + KELVIN))
}

/// The pitch in Hz of a wind instrument at one air temperature, given its pitch at another:
/// proportional to [`speed_of_sound_m_s`].
///
/// ```
/// assert!((pitch::wind_hz(440.0, 20.0, 25.0) - 443.736).abs() < 0.005);
/// ```
pub fn wind_hz(hz: f64, from_celsius: f64, to_celsius: f64) -> f64 {
    hz * speed_of_sound_m_s(to_celsius) / speed_of_sound_m_s(from_celsius)
}
