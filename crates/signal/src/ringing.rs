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
