//! Three to five sustained instruments with vibrato: the orchestra pit in which a harp must be tuned.

use std::f64::consts::{FRAC_PI_2, TAU};

use realfft::num_complex::Complex64;

use crate::carrier::{Mode, STEP, add_partial};
use crate::concert_harp::roll_off;
use crate::drawn::CENTS;
use crate::generator::Generator;
use crate::noise::rms;

/// The pit for `n` samples at `rate_hz` through a microphone with this corner in Hz, at an RMS of 1.
pub(crate) fn pit(n: usize, heard: (f64, f64), draws: &mut Generator) -> Vec<f64> {
    let mut all = vec![0.0; n];
    for _ in 0..3 + draws.below(3) {
        let mut voice = instrument(n, heard, draws);
        let factor = 10f64.powf(draws.between(-6.0, 0.0) / 20.0) / rms(&voice);
        for (sum, v) in all.iter_mut().zip(&mut voice) {
            *sum += *v * factor;
        }
    }
    let loud = rms(&all);
    all.iter_mut().for_each(|y| *y /= loud);
    all
}

/// One instrument between C2 and C6: up to 20 harmonics below 9 kHz (and below what the rate can hold), vibrato of
/// 5–20 cents, swelling slowly.
fn instrument(n: usize, (rate_hz, corner_hz): (f64, f64), draws: &mut Generator) -> Vec<f64> {
    let hz = 440.0 * 2f64.powf((draws.between(36.0, 84.0) - 69.0) / 12.0);
    let depth = draws.between(5.0, 20.0) / CENTS;
    let speed = draws.between(4.5, 6.5);
    let vibrato = slow_sine(n, rate_hz, speed, FRAC_PI_2 + draws.between(0.0, 6.3));
    let swell = slow_sine(n, rate_hz, draws.between(0.3, 1.2), draws.between(0.0, 6.3));
    let top_hz = 9000f64.min(0.45 * rate_hz);
    let harmonics: Vec<Complex64> = (1..=(top_hz / hz).min(20.0) as u32)
        .map(|k| {
            let phase = draws.between(0.0, 6.3);
            let steepness = draws.between(0.8, 1.4);
            let amplitude = roll_off(f64::from(k) * hz, corner_hz) / f64::from(k).powf(steepness);
            Complex64::from_polar(amplitude, phase)
        })
        .collect();
    let mut voice = vec![0.0; n];
    for (block, place) in voice.chunks_mut(STEP).enumerate() {
        let turn: [Complex64; STEP] = std::array::from_fn(|i| {
            let k = block * STEP + i;
            let t = k as f64 / rate_hz;
            let swing = vibrato.get(k).copied().unwrap_or(0.0);
            Complex64::cis(TAU * hz * t - hz * depth / speed * swing)
        });
        add_harmonics(&harmonics, &turn, place);
    }
    for (v, s) in voice.iter_mut().zip(&swell) {
        *v *= 0.6 + 0.4 * s;
    }
    voice
}

/// Im Σ c_k·z^k, k from 1, by Horner's rule on every sample's z at once.
fn add_harmonics(harmonics: &[Complex64], turn: &[Complex64; STEP], out: &mut [f64]) {
    let (z_re, z_im) = (turn.map(|z| z.re), turn.map(|z| z.im));
    let (mut re, mut im) = ([0.0; STEP], [0.0; STEP]);
    for c in harmonics.iter().rev() {
        for i in 0..STEP {
            let (x, y) = (re[i] + c.re, im[i] + c.im);
            re[i] = x * z_re[i] - y * z_im[i];
            im[i] = x * z_im[i] + y * z_re[i];
        }
    }
    for (sum, y) in out.iter_mut().zip(&im) {
        *sum += y;
    }
}

/// sin(2π·hz·t + phase) for `n` samples.
fn slow_sine(n: usize, rate_hz: f64, hz: f64, phase: f64) -> Vec<f64> {
    let mut sine = vec![0.0; n];
    let steady = Mode::new(1.0, 0.0, 0.0, phase - FRAC_PI_2);
    add_partial(&mut sine, (hz, rate_hz), &[steady], None, 0.0, |_, _| {});
    sine
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pit_plays_at_unit_power() {
        for (seed, rate_hz) in [(0, 48_000.0), (1, 48_000.0), (2, 8_000.0), (3, 96_000.0)] {
            let y = pit(48_000, (rate_hz, 100.0), &mut Generator::new(&[seed]));
            assert!((rms(&y) - 1.0).abs() < 1e-9);
        }
    }

    #[test]
    fn harmonics_by_horners_rule_equal_their_sum() {
        let c: Vec<Complex64> = (1..=20)
            .map(|k| Complex64::from_polar(1.0 / f64::from(k), f64::from(k)))
            .collect();
        let turn: [Complex64; STEP] = std::array::from_fn(|i| Complex64::cis(0.1 * i as f64));
        let mut fast = [0.0; STEP];
        add_harmonics(&c, &turn, &mut fast);
        for (i, y) in fast.iter().enumerate() {
            let slow: f64 = (1..=20)
                .map(|k| (f64::from(k) * (0.1 * i as f64 + 1.0)).sin() / f64::from(k))
                .sum();
            assert!((y - slow).abs() < 1e-12);
        }
    }
}
