//! What is typical of a concert harp's strings: compass, stiffness, decay, and what a small microphone leaves of them.
//!
//! The curves were drawn through measurements of one recorded concert harp (23 strings, own analysis: B from a
//! stiff-string fit, seconds until −30 dB doubled to −60 dB) and, for the order of magnitude of B of wound, gut and nylon
//! strings, through B = π³Ed⁴/(64TL²) (H. Fletcher, *JASA* 36, 1964, 203–209) with usual gauges. They are good for
//! inventing strings, not for predicting one.

/// Strings of the compass C1–G7, bass to treble: name and frequency in Hz in twelve-note equal temperament, A4 = 440 Hz.
///
/// ```
/// let strings = pluck::strings();
/// assert_eq!(strings.len(), 47);
/// assert_eq!((strings[0].0.as_str(), strings[46].0.as_str()), ("C1", "G7"));
/// assert!((strings[26].1 - 440.0).abs() < 1e-9); // A4
/// ```
#[must_use]
pub fn strings() -> Vec<(String, f64)> {
    let letters = [
        ('C', 0),
        ('D', 2),
        ('E', 4),
        ('F', 5),
        ('G', 7),
        ('A', 9),
        ('B', 11),
    ];
    (1..=7)
        .flat_map(|octave| letters.map(|(letter, semitone)| (letter, semitone, octave)))
        .take(COMPASS)
        .map(|(letter, semitone, octave)| {
            let key = 12 * (octave + 1) + semitone;
            (
                format!("{letter}{octave}"),
                440.0 * 2f64.powf(f64::from(key - 69) / 12.0),
            )
        })
        .collect()
}

/// How many strings there are from C1 to G7.
pub(crate) const COMPASS: usize = 47;

type Curve = &'static [(f64, f64)];
const WOUND: Curve = &[(32.7, 3.6e-5), (98.0, 6.9e-5)];
const GUT: Curve = &[
    (110.0, 2.1e-4),
    (261.6, 1.3e-4),
    (440.0, 1.8e-4),
    (1046.5, 4.0e-4),
    (1318.5, 5.0e-4),
];
const NYLON: Curve = &[(1396.9, 1.13e-3), (3136.0, 2.7e-3)];
const RING: Curve = &[
    (32.7, 10.0),
    (261.6, 8.0),
    (523.0, 5.0),
    (1760.0, 1.1),
    (3136.0, 0.5),
];

/// Usual stiffness B (no unit) of the string sounding `hz` (> 0): wound below 104 Hz, gut below 1357 Hz, nylon above.
///
/// ```
/// assert!((pluck::typical_b(440.0) - 1.8e-4).abs() < 1e-12);
/// ```
#[must_use]
pub fn typical_b(hz: f64) -> f64 {
    let points = if hz < 104.0 {
        WOUND
    } else if hz < 1357.0 {
        GUT
    } else {
        NYLON
    };
    along(points, hz)
}

/// Usual seconds for the first partial of the string sounding `hz` (> 0) to fall by 60 dB.
///
/// ```
/// assert!((pluck::typical_t60(261.6) - 8.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn typical_t60(hz: f64) -> f64 {
    along(RING, hz)
}

/// Amplitude factor (0 to 1) of a small microphone that loses the bass: third-order high pass, −3 dB at 100 Hz.
///
/// ```
/// assert!((pluck::microphone(100.0) - 0.5f64.sqrt()).abs() < 1e-12);
/// ```
#[must_use]
pub fn microphone(hz: f64) -> f64 {
    roll_off(hz, MICROPHONE_HZ)
}

/// Where the small microphone has lost 3 dB, in Hz.
pub(crate) const MICROPHONE_HZ: f64 = 100.0;

/// The same with another corner in Hz; a corner of 0 loses nothing.
pub(crate) fn roll_off(hz: f64, corner_hz: f64) -> f64 {
    1.0 / (1.0 + (corner_hz / hz).powi(6)).sqrt()
}

/// Straight lines in log–log, level beyond both ends.
fn along(points: &[(f64, f64)], hz: f64) -> f64 {
    let logs: Vec<(f64, f64)> = points.iter().map(|&(x, y)| (x.ln(), y.ln())).collect();
    interpolate(&logs, hz.ln()).exp()
}

/// Piecewise linear through `points` (ascending x), level beyond both ends; 0 where there are none.
pub(crate) fn interpolate(points: &[(f64, f64)], x: f64) -> f64 {
    let above = points.partition_point(|p| p.0 <= x);
    match (
        above.checked_sub(1).and_then(|i| points.get(i)),
        points.get(above),
    ) {
        (Some(a), Some(b)) => a.1 + (b.1 - a.1) / (b.0 - a.0) * (x - a.0),
        (Some(end), None) | (None, Some(end)) => end.1,
        (None, None) => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn curves_are_level_beyond_their_ends() {
        assert_eq!(typical_t60(20.0), typical_t60(32.7));
        assert!((typical_t60(9000.0) - 0.5).abs() < 1e-12);
        assert!((typical_b(4000.0) - 2.7e-3).abs() < 1e-12);
    }

    #[test]
    fn a_missing_corner_loses_nothing() {
        assert_eq!(roll_off(20.0, 0.0), 1.0);
    }
}
