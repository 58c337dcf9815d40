//! Sounds that are not the harp: the tool's own tones and chirps, and people talking.

use std::f64::consts::{PI, TAU};

use crate::generator::Generator;
use crate::noise::rms;

/// A steady tone of `level` (RMS), faded in and out within 10 ms.
pub(crate) fn tone(hz: f64, seconds: f64, level: f64, rate_hz: f64) -> Vec<f64> {
    chirp(hz, hz, seconds, level, rate_hz)
}

/// A sweep of `level` (RMS), even in Hz, faded in and out within 10 ms.
pub(crate) fn chirp(from_hz: f64, to_hz: f64, seconds: f64, level: f64, rate_hz: f64) -> Vec<f64> {
    let n = (seconds * rate_hz).round() as usize;
    let sample = |k: usize| {
        let t = k as f64 / rate_hz;
        let cycles = from_hz * t + (to_hz - from_hz) * t * t / (2.0 * seconds);
        level * 2f64.sqrt() * (TAU * cycles).sin() * fade(k, n, 0.01 * rate_hz)
    };
    (0..n).map(sample).collect()
}

/// Syllables of about a fifth of a second: voiced ones (harmonics of a sinking 100–220 Hz through three resonances) and
/// hissed ones (noise about 3–6 kHz), of `level` (RMS). Like speech in spectrum and rhythm, without words.
pub(crate) fn speech(seconds: f64, level: f64, rate_hz: f64, draws: &mut Generator) -> Vec<f64> {
    let n = (seconds * rate_hz).round() as usize;
    let mut out = Vec::with_capacity(n);
    while out.len() < n {
        let length = (draws.between(0.12, 0.28) * rate_hz) as usize;
        let voiced = draws.unit() < 0.7;
        let syllable = if voiced {
            vowel(length, rate_hz, draws)
        } else {
            hissed(length, rate_hz, draws)
        };
        out.extend(syllable);
        let pause = (draws.between(0.01, 0.08) * rate_hz) as usize;
        out.extend(std::iter::repeat_n(0.0, pause));
    }
    out.truncate(n);
    let factor = level / rms(&out);
    out.iter_mut().for_each(|y| *y *= factor);
    out
}

fn vowel(n: usize, rate_hz: f64, draws: &mut Generator) -> Vec<f64> {
    let start = draws.between(100.0, 220.0);
    let sinking = draws.between(0.8, 1.0);
    let resonances = [
        draws.between(300.0, 800.0),
        draws.between(900.0, 2200.0),
        draws.between(2300.0, 3000.0),
    ];
    let count = (4000.0f64.min(0.45 * rate_hz) / start) as u32;
    let mut out = vec![0.0; n];
    for k in (1..=count).map(f64::from) {
        // The resonances stand for the vowel's formants, each 100 Hz wide.
        let hz = k * start;
        let gain: f64 = resonances
            .iter()
            .map(|r| 1.0 / (1.0 + ((hz - r) / 100.0).powi(2)))
            .sum::<f64>()
            / k;
        let phase = draws.angle();
        for (i, y) in out.iter_mut().enumerate() {
            let t = i as f64 / rate_hz;
            let length = n as f64 / rate_hz;
            let cycles = hz * (t + (sinking - 1.0) * t * t / (2.0 * length));
            *y += gain * (TAU * cycles + phase).sin();
        }
    }
    shaped(out, 1.0, rate_hz)
}

/// White noise through one resonance.
fn hissed(n: usize, rate_hz: f64, draws: &mut Generator) -> Vec<f64> {
    let hz = draws.between(3000.0, 6000.0).min(0.4 * rate_hz);
    let radius = (-PI * 1500.0 / rate_hz).exp();
    let turn = 2.0 * radius * (TAU * hz / rate_hz).cos();
    let (mut last, mut before) = (0.0, 0.0);
    let ringing = (0..n).map(|_| {
        let y = draws.normal() + turn * last - radius * radius * before;
        (before, last) = (last, y);
        y
    });
    shaped(ringing.collect(), 0.3, rate_hz)
}

/// A syllable's rise and fall (40 ms each), at this RMS before them.
fn shaped(mut syllable: Vec<f64>, level: f64, rate_hz: f64) -> Vec<f64> {
    let (n, factor) = (syllable.len(), level / rms(&syllable));
    for (k, y) in syllable.iter_mut().enumerate() {
        *y *= factor * fade(k, n, 0.04 * rate_hz);
    }
    syllable
}

/// 0 to 1 at both ends of `n` samples, by raised cosines of `ramp` samples.
fn fade(k: usize, n: usize, ramp: f64) -> f64 {
    let edge = (k.min(n - 1 - k) as f64 / ramp).min(1.0);
    0.5 - 0.5 * (PI * edge).cos()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tone_has_its_length_and_level() {
        let y = tone(1000.0, 0.5, 0.1, 48_000.0);
        assert_eq!(y.len(), 24_000);
        assert!((rms(&y[2_400..21_600]) - 0.1).abs() < 1e-4);
        assert_eq!((y[0], y[23_999]), (0.0, 0.0));
    }

    #[test]
    fn speech_has_its_level_and_its_pauses() {
        let y = speech(3.0, 0.05, 48_000.0, &mut Generator::new(&[6]));
        assert_eq!(y.len(), 144_000);
        assert!((rms(&y) - 0.05).abs() < 1e-6);
        let quiet = y.chunks(480).filter(|c| rms(c) < 0.005).count();
        assert!(quiet > 10, "{quiet} pauses of 10 ms");
    }

    #[test]
    fn a_prompt_of_no_length_is_nothing() {
        assert!(tone(1000.0, 0.0, 0.1, 48_000.0).is_empty());
        assert!(speech(0.0, 0.1, 48_000.0, &mut Generator::new(&[6])).is_empty());
    }
}
