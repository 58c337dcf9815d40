//! What an ear can tell apart: the smallest step in pitch, and the width of a critical band.

use crate::cents;

/// Just-noticeable differences of pure tones: (Hz, step in Hz), 62 Hz to 4 kHz.
///
/// As quoted by J. O. Smith III, *Spectral Audio Signal Processing* (60 dB SPL, five men aged
/// 20–30, slow frequency modulation; the set matches Shower & Biddulph, JASA 3 (1931) 275).
/// A single low sine is judged coarsely; a string is judged by its upper partials, much finer.
pub const JND_TABLE: [(f64, f64); 7] = [
    (62.0, 2.15),
    (125.0, 3.36),
    (250.0, 2.45),
    (500.0, 1.75),
    (1000.0, 3.40),
    (2000.0, 3.60),
    (4000.0, 8.00),
];

/// The just-noticeable step in Hz of a pure tone at `hz`, from [`JND_TABLE`] with straight lines
/// between its points on logarithmic axes; `None` outside 62 to 4000 Hz, where nothing is listed.
///
/// ```
/// assert_eq!(pitch::jnd_hz(500.0), Some(1.75));
/// assert_eq!(pitch::jnd_hz(40.0), None);
/// ```
pub fn jnd_hz(hz: f64) -> Option<f64> {
    JND_TABLE.windows(2).find_map(|pair| match pair {
        &[(low, low_step), (high, high_step)] if (low..=high).contains(&hz) => {
            let along = (hz / low).ln() / (high / low).ln();
            Some(low_step * (high_step / low_step).powf(along))
        }
        _ => None,
    })
}

/// The just-noticeable step upwards in cents of a pure tone at `hz`; `None` outside 62–4000 Hz.
///
/// ```
/// assert!(pitch::jnd_cents(500.0).is_some_and(|step| (step - 6.05).abs() < 0.02));
/// ```
pub fn jnd_cents(hz: f64) -> Option<f64> {
    jnd_hz(hz).map(|step| cents(hz, hz + step))
}

/// Equivalent rectangular bandwidth of hearing at `hz`, in Hz: 24.7·(4.37·hz/1000 + 1).
/// Glasberg & Moore, Hear. Res. 47 (1990) 103 (formula from memory).
///
/// ```
/// assert!((pitch::erb_hz(1000.0) - 132.64).abs() < 0.01);
/// ```
pub fn erb_hz(hz: f64) -> f64 {
    24.7 * (4.37 * hz / 1000.0 + 1.0)
}

/// The smallest initial glide in cents that is heard as a glide at `hz`: a tenth of [`erb_hz`]
/// (H. Järveläinen & V. Välimäki, "Audibility of initial pitch glides", ICMC 2001).
///
/// ```
/// assert!((pitch::glide_audible_cents(440.0) - 28.17).abs() < 0.02);
/// ```
pub fn glide_audible_cents(hz: f64) -> f64 {
    cents(hz, hz + 0.1 * erb_hz(hz))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_listed_frequency_gives_its_own_step_and_those_between_lie_between() {
        for (hz, step) in JND_TABLE {
            assert!(
                jnd_hz(hz).is_some_and(|found| (found - step).abs() < 1e-12),
                "{hz} Hz"
            );
        }
        assert!(jnd_hz(700.0).is_some_and(|step| 1.75 < step && step < 3.40));
    }

    #[test]
    fn outside_the_table_nothing_is_claimed() {
        for hz in [0.0, 61.9, 4000.1, f64::NAN] {
            assert_eq!(jnd_hz(hz), None, "{hz}");
        }
    }
}
