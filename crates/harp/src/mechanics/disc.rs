//! Discs and levers: how much of a string a semitone takes away.

/// Share of the speaking length that is lost in raising a string by so many semitones:
/// 1 − 2^(−semitones/12).
///
/// ```
/// assert!((harp::mechanics::shortening_share(1) - 0.05613).abs() < 1e-5);
/// assert!((harp::mechanics::shortening_share(2) - 0.10910).abs() < 1e-5);
/// ```
pub fn shortening_share(semitones: u8) -> f64 {
    1.0 - (-f64::from(semitones) / 12.0).exp2()
}
