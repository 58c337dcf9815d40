//! The reference pitch: the A that everybody tunes to, and equal temperament above it.

use crate::SpelledPitch;

/// Sounding key number of A4, as MIDI counts keys.
const A4_KEY: i32 = 69;

/// Frequency of A4 in Hz, between [`ReferencePitch::LOWEST_HZ`] and
/// [`ReferencePitch::HIGHEST_HZ`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ReferencePitch {
    a4_hz: f64,
}

/// A reference pitch that no ensemble uses.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum ReferenceError {
    /// Outside 380–480 Hz, or no number at all.
    #[error(
        "the reference pitch must be between 380 and 480 Hz for A above middle C, not {a4_hz} Hz"
    )]
    OutOfRange {
        /// The value that was given, in Hz.
        a4_hz: f64,
    },
}

impl ReferencePitch {
    /// Lowest reference pitch taken, in Hz.
    pub const LOWEST_HZ: f64 = 380.0;
    /// Highest reference pitch taken, in Hz.
    pub const HIGHEST_HZ: f64 = 480.0;
    /// A4 = 440 Hz (ISO 16:1975).
    pub const A440: Self = Self { a4_hz: 440.0 };

    /// A reference pitch from the frequency of A4 in Hz, 380 to 480.
    ///
    /// ```
    /// use pitch::ReferencePitch;
    /// assert_eq!(ReferencePitch::new(442.0)?.a4_hz(), 442.0);
    /// assert!(ReferencePitch::new(44.2).is_err());
    /// # Ok::<(), pitch::ReferenceError>(())
    /// ```
    pub fn new(a4_hz: f64) -> Result<Self, ReferenceError> {
        if (Self::LOWEST_HZ..=Self::HIGHEST_HZ).contains(&a4_hz) {
            Ok(Self { a4_hz })
        } else {
            Err(ReferenceError::OutOfRange { a4_hz })
        }
    }

    /// Frequency of A4 in Hz.
    pub fn a4_hz(self) -> f64 {
        self.a4_hz
    }

    /// Frequency in Hz of a spelled pitch in 2:1 equal temperament.
    ///
    /// ```
    /// use pitch::ReferencePitch;
    /// let c_flat = ReferencePitch::A440.hz("Cb1".parse()?);
    /// assert!((c_flat - 30.868).abs() < 0.001);
    /// # Ok::<(), pitch::SpellingError>(())
    /// ```
    pub fn hz(self, pitch: SpelledPitch) -> f64 {
        self.hz_of_key(pitch.midi())
    }

    /// Frequency in Hz of a sounding key (MIDI number, 69 = A4): a4·2^((key − 69)/12).
    ///
    /// ```
    /// assert!((pitch::ReferencePitch::A440.hz_of_key(60) - 261.626).abs() < 0.001);
    /// ```
    pub fn hz_of_key(self, key: i32) -> f64 {
        self.a4_hz * (f64::from(key - A4_KEY) / 12.0).exp2()
    }

    /// Sounding key of a frequency in Hz, with its fraction: 69.01 is one cent above A4.
    pub fn key_of_hz(self, hz: f64) -> f64 {
        f64::from(A4_KEY) + 12.0 * (hz / self.a4_hz).log2()
    }
}

impl Default for ReferencePitch {
    fn default() -> Self {
        Self::A440
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(a4_hz: f64, taken: bool) {
        assert_eq!(ReferencePitch::new(a4_hz).is_ok(), taken, "{a4_hz} Hz");
    }

    #[test]
    fn a_reference_from_380_to_480_hz_is_taken_and_no_other() {
        check(380.0, true);
        check(480.0, true);
        check(379.99, false);
        check(480.01, false);
        check(f64::NAN, false);
        check(f64::INFINITY, false);
        check(-440.0, false);
    }

    #[test]
    fn a_refused_reference_is_named_with_its_value() {
        let error = ReferencePitch::new(4.4).unwrap_err();
        assert!(error.to_string().contains("4.4 Hz"), "{error}");
    }

    #[test]
    fn key_and_hertz_are_inverse() {
        for key in 10..120 {
            let hz = ReferencePitch::A440.hz_of_key(key);
            assert!((ReferencePitch::A440.key_of_hz(hz) - f64::from(key)).abs() < 1e-9);
        }
    }
}
