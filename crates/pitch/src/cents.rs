//! Cents: hundredths of an equal-tempered semitone.

/// How far `to_hz` lies above `from_hz`, in cents: 1200·log2(to/from). Both in Hz and positive.
///
/// ```
/// assert!((pitch::cents(440.0, 442.0) - 7.851).abs() < 0.001);
/// ```
pub fn cents(from_hz: f64, to_hz: f64) -> f64 {
    1200.0 * (to_hz / from_hz).log2()
}

/// The pitch so many cents above `hz` (below, when negative), in Hz.
///
/// ```
/// assert!((pitch::raise(440.0, 1200.0) - 880.0).abs() < 1e-9);
/// ```
pub fn raise(hz: f64, cents: f64) -> f64 {
    hz * (cents / 1200.0).exp2()
}

/// What an error of so many cents is worth in Hz at a pitch: the beats per second against the
/// true unison.
///
/// ```
/// assert!((pitch::hz_of_cents(440.0, 1.0) - 0.25423).abs() < 1e-4);
/// ```
pub fn hz_of_cents(hz: f64, cents: f64) -> f64 {
    raise(hz, cents) - hz
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(from_hz: f64, to_hz: f64, expected: f64) {
        let found = cents(from_hz, to_hz);
        assert!(
            (found - expected).abs() < 1e-9,
            "{from_hz} to {to_hz}: {found} cents"
        );
        assert!((raise(from_hz, found) - to_hz).abs() < 1e-9 * to_hz);
    }

    #[test]
    fn an_octave_up_is_1200_cents_and_down_is_negative() {
        check(220.0, 440.0, 1200.0);
        check(440.0, 220.0, -1200.0);
        check(440.0, 440.0, 0.0);
    }
}
