//! Beats: how fast two strings beat where their partials nearly meet.

use crate::cents;

/// The beats of an interval at the lowest pair of partials that nearly coincide.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beats {
    /// Beats per second, not negative.
    pub per_s: f64,
    /// Partial of the lower pitch that beats (3 in a fifth).
    pub low_partial: u32,
    /// Partial of the higher pitch that beats (2 in a fifth).
    pub high_partial: u32,
    /// Cents by which the interval is wider than pure; negative when it is narrower.
    pub wide_cents: f64,
}

/// Pure intervals by which harps and pianos are tuned: (partial of the lower, of the higher).
const PURE: [(u32, u32); 13] = [
    (1, 1),
    (6, 5),
    (5, 4),
    (4, 3),
    (3, 2),
    (8, 5),
    (5, 3),
    (2, 1),
    (12, 5),
    (5, 2),
    (8, 3),
    (3, 1),
    (4, 1),
];

/// Beats between two pitches in Hz (`low_hz` ≤ `high_hz`, both positive), whose partials are taken
/// as whole multiples; `None` if the interval lies more than 45 cents from every pure unison,
/// third, fourth, fifth, sixth, octave, tenth, eleventh, twelfth and double octave.
///
/// A rate is |m·low − n·high|: in equal temperament the fifth is 1.955 cents narrow, the fourth as
/// much wide, the major third 13.686 wide.
///
/// ```
/// use pitch::{ReferencePitch, beats_between};
/// let hz = |key| ReferencePitch::A440.hz_of_key(key);
/// let third = beats_between(hz(53), hz(57)); // F3 and A3
/// assert!(third.is_some_and(|beats| (beats.per_s - 6.929).abs() < 0.002));
/// ```
pub fn beats_between(low_hz: f64, high_hz: f64) -> Option<Beats> {
    let nearest = PURE
        .into_iter()
        .map(|(m, n)| beats_at(low_hz, high_hz, m, n));
    let nearest = nearest.min_by(|a, b| a.wide_cents.abs().total_cmp(&b.wide_cents.abs()))?;
    (nearest.wide_cents.abs() <= 45.0).then_some(nearest)
}

impl Beats {
    /// The beats of two other pitches in Hz at the same pair of partials.
    pub fn between(&self, low_hz: f64, high_hz: f64) -> Beats {
        beats_at(low_hz, high_hz, self.low_partial, self.high_partial)
    }
}

fn beats_at(low_hz: f64, high_hz: f64, low_partial: u32, high_partial: u32) -> Beats {
    let (low, high) = (
        f64::from(low_partial) * low_hz,
        f64::from(high_partial) * high_hz,
    );
    Beats {
        per_s: (high - low).abs(),
        low_partial,
        high_partial,
        wide_cents: cents(low, high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::ReferencePitch;

    #[track_caller]
    fn check(low: &str, high: &str, expected: Option<(u32, u32)>) {
        let hz = |name: &str| ReferencePitch::A440.hz(name.parse().unwrap());
        let found = beats_between(hz(low), hz(high));
        assert_eq!(
            found.map(|b| (b.low_partial, b.high_partial)),
            expected,
            "{low}–{high}"
        );
    }

    #[test]
    fn each_interval_beats_at_its_lowest_common_partial() {
        check("A3", "A3", Some((1, 1)));
        check("A3", "C4", Some((6, 5)));
        check("F3", "A3", Some((5, 4)));
        check("A3", "D4", Some((4, 3)));
        check("A3", "E4", Some((3, 2)));
        check("F3", "D4", Some((5, 3)));
        check("A3", "A4", Some((2, 1)));
    }

    #[test]
    fn a_semitone_and_a_tritone_have_no_beats_to_tune_by() {
        check("C4", "C#4", None);
        check("C4", "F#4", None);
        assert_eq!(beats_between(f64::NAN, 440.0), None);
    }
}
