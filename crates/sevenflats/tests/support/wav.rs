//! Sound files made for a test.

use std::path::Path;

use hound::{SampleFormat, WavSpec, WavWriter};

/// Writes samples, interleaved if there are several channels, as 16-bit WAV.
pub(crate) fn write(path: &Path, rate_hz: u32, channels: u16, samples: &[f32]) {
    let spec = WavSpec {
        channels,
        sample_rate: rate_hz,
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    };
    let mut writer = WavWriter::create(path, spec).unwrap();
    for &sample in samples {
        writer
            .write_sample((sample * 32_767.0).clamp(-32_768.0, 32_767.0) as i16)
            .unwrap();
    }
    writer.finalize().unwrap();
}

/// Partials of [`pluck`].
const PARTIALS: u32 = 12;
/// Stiffness of [`pluck`]: about that of gut in the middle.
const B: f64 = 1.0e-4;
/// Silence before [`pluck`], in seconds.
const BEFORE_S: f64 = 0.25;

/// A plucked string by the plainest formula: partials 1 to 12 of a little stiffness, the nth of
/// amplitude 1/n, each dying away, with a quarter of a second before it. Invented, and exact: its
/// sounding pitch is `hz`.
pub(crate) fn pluck(hz: f64, rate_hz: u32, seconds: f64) -> Vec<f32> {
    let rate = f64::from(rate_hz);
    let f1 = hz / sounding_over_first(hz, rate);
    let partial = |n: u32, t: f64| {
        let hz = f1 * f64::from(n) * stretch(n);
        let loud = if hz < rate * 0.45 {
            0.25 / f64::from(n)
        } else {
            0.0
        };
        let phase = std::f64::consts::TAU * hz * t + f64::from(n);
        loud * (-t * decay(n)).exp() * phase.sin()
    };
    (0..(seconds * rate) as usize)
        .map(|at| at as f64 / rate - BEFORE_S)
        .map(|t| match t < 0.0 {
            true => 0.0,
            false => {
                let attack = (t * 500.0).min(1.0);
                ((1..=PARTIALS).map(|n| partial(n, t)).sum::<f64>() * attack) as f32
            }
        })
        .collect()
}

/// The sounding pitch over the first partial: the mean of f_n/n over partials 1 to 8, weighted by n²
/// times the energy of partial n from 50 to 500 ms. With amplitudes 1/n only the decay is left in
/// the weight: w_n = (e^(−0.1 d) − e^(−d)) / 2d.
fn sounding_over_first(hz: f64, rate: f64) -> f64 {
    let (mut sum, mut weights) = (0.0, 0.0);
    for n in (1..=8).filter(|&n| hz * f64::from(n) * stretch(n) < rate * 0.45) {
        let d = decay(n);
        let weight = ((-0.1 * d).exp() - (-d).exp()) / (2.0 * d);
        sum += weight * stretch(n);
        weights += weight;
    }
    sum / weights
}

/// By how much the nth partial lies above n times the first.
fn stretch(n: u32) -> f64 {
    ((1.0 + B * f64::from(n * n)) / (1.0 + B)).sqrt()
}

/// The rate at which the nth partial's amplitude dies, per second.
fn decay(n: u32) -> f64 {
    0.8 + 0.4 * f64::from(n)
}
