//! Whether what was struck rings on as strings do: a syllable, a knock, a note that somebody plays ends or moves.

use crate::beating::ring_time_s;
use crate::blocks::Phasor;
use crate::comb::Law;

/// Seconds left out at the start: the finger's noise.
const NOISE_S: f64 = 0.03;
/// Seconds of each of the two stretches that are compared, at least, and periods of the lowest partial.
const STRETCH_S: f64 = 0.1;
const PERIODS: f64 = 4.0;
/// Partials looked at, up to this frequency in Hz.
const PARTIALS: usize = 8;
const TOP_HZ: f64 = 4_000.0;
/// Power against the strongest, from which a partial counts.
const COUNTS: f64 = 0.03;

/// How a sound's partials went on, in decibels from its start to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ringing {
    /// By how much even the best of them fell short of a string's ringing. A string stands near 0.
    pub short_db: f64,
    /// By how much the one fell that fell most. A string's partials all fall, though one may beat.
    pub fell_db: f64,
}

/// How the partials of `law` ring in `after`, which begins at the onset; none where it is too short to say.
pub fn ringing(after: &[f32], rate_hz: f64, law: Law) -> Option<Ringing> {
    let length_s = STRETCH_S.max(PERIODS / law.partial(1));
    let end_s = after.len() as f64 / rate_hz;
    let (first_s, last_s) = (NOISE_S, end_s - length_s);
    let between_s = last_s - first_s;
    if between_s < length_s {
        return None;
    }
    let power = |from_s: f64, hz: f64| {
        let from = (from_s * rate_hz) as usize;
        let part = after.get(from..from + (length_s * rate_hz) as usize);
        part.map_or(0.0, |part| power_at(part, hz, rate_hz))
    };
    let top = TOP_HZ.min(0.45 * rate_hz).max(law.partial(1) * 1.01);
    let places = (1..=PARTIALS).map(|n| law.partial(n));
    let found: Vec<(f64, f64, f64)> = places
        .take_while(|hz| *hz < top)
        .map(|hz| (hz, power(first_s, hz), power(last_s, hz)))
        .collect();
    let strongest = found.iter().map(|f| f.1).fold(0.0, f64::max);
    let counts = found
        .iter()
        .filter(|f| f.1 >= COUNTS * strongest && f.1 > 0.0);
    let mut ringing = Ringing {
        short_db: f64::INFINITY,
        fell_db: f64::NEG_INFINITY,
    };
    for (hz, first, last) in counts {
        let fell = 10.0 * (first / last.max(1e-30)).log10();
        let expected = 60.0 * between_s / ring_time_s(*hz);
        ringing.short_db = ringing.short_db.min(fell - expected);
        ringing.fell_db = ringing.fell_db.max(fell);
    }
    ringing.short_db.is_finite().then_some(ringing)
}

/// Power of `part` at `hz` through a Hann window.
fn power_at(part: &[f32], hz: f64, rate_hz: f64) -> f64 {
    let turn = -std::f64::consts::TAU * hz / rate_hz;
    let step = Phasor::from_polar(1.0, turn);
    let half = Phasor::from_polar(1.0, std::f64::consts::PI / part.len() as f64);
    let (mut at, mut window) = (Phasor::new(1.0, 0.0), half.sqrt());
    let mut sum = Phasor::default();
    for y in part {
        sum += at * (f64::from(*y) * window.im * window.im);
        at *= step;
        window *= half;
    }
    sum.norm_sqr()
}

#[cfg(test)]
mod tests {
    use super::*;

    const RATE_HZ: f64 = 48_000.0;

    /// Six partials of 196 Hz whose level in decibels is `db` of the seconds since the onset.
    fn check(db: impl Fn(f64) -> f64, expected: impl Fn(Ringing) -> bool) {
        let sound: Vec<f32> = (0..28_800)
            .map(|i| {
                let t = f64::from(i) / RATE_HZ;
                let level = 0.1 * 10f64.powf(db(t) / 20.0);
                let wave = |n: f64| (std::f64::consts::TAU * 196.0 * n * t).sin() / n;
                (level * (1..=6).map(f64::from).map(wave).sum::<f64>()) as f32
            })
            .collect();
        let law = Law {
            f0_hz: 196.0,
            b: 0.0,
        };
        let ringing = ringing(&sound, RATE_HZ, law).unwrap();
        assert!(expected(ringing), "{ringing:?}");
    }

    #[test]
    fn a_string_dies_as_strings_do() {
        // 60 dB in eight seconds, as its frequency has it
        check(|t| -60.0 * t / 8.0, |r| r.short_db < 1.0 && r.fell_db > 2.0);
    }

    #[test]
    fn a_syllable_is_over_too_soon() {
        check(|t| if t < 0.2 { 0.0 } else { -60.0 }, |r| r.short_db > 20.0);
    }

    #[test]
    fn a_note_that_is_played_swells() {
        check(|t| 10.0 * t, |r| r.fell_db < -3.0);
    }

    #[test]
    fn a_short_sound_says_nothing() {
        let law = Law {
            f0_hz: 196.0,
            b: 0.0,
        };
        assert_eq!(ringing(&[0.0; 8_000], RATE_HZ, law), None);
    }
}
