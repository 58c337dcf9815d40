//! Warmth: a steel string slackens as it warms, whatever the rest of the harp does.

/// Linear expansion of steel per kelvin (*The Science of String Instruments*, ch. 21, p. 379).
pub const STEEL_EXPANSION_PER_K: f64 = 1.2e-5;

/// Share by which the pitch of a steel string, or of a steel core, changes when it alone warms by
/// `kelvin` on a rigid frame: −αEθ/(2σ) (*The Science of String Instruments*, Eq. (21.1)).
///
/// An upper bound on a real harp, whose frame moves too (in minutes; the string in seconds). It
/// holds for steel only: no figure is established for nylon, fluorocarbon or gut, not even its
/// sign.
///
/// ```
/// let share = harp::mechanics::steel_warmth_share(200e9, 500e6, 1.0);
/// assert!((share + 0.0024).abs() < 1e-9); // 4.16 cents down for each degree
/// ```
pub fn steel_warmth_share(modulus_pa: f64, stress_pa: f64, kelvin: f64) -> f64 {
    -STEEL_EXPANSION_PER_K * modulus_pa * kelvin / (2.0 * stress_pa)
}
