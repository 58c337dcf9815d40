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

/// A plucked string by the plainest formula: partials 1 to 12 of a little stiffness, each dying
/// away, with a quarter of a second before it. Invented, and exact: it sounds at `hz`.
pub(crate) fn pluck(hz: f64, rate_hz: u32, seconds: f64) -> Vec<f32> {
    let rate = f64::from(rate_hz);
    let before = 0.25;
    let b: f64 = 1.0e-4;
    let f0 = hz / (1.0 + b).sqrt();
    (0..(seconds * rate) as usize)
        .map(|n| {
            let t = n as f64 / rate - before;
            if t < 0.0 {
                return 0.0;
            }
            let partial = |n: u32| {
                let n = f64::from(n);
                let f = n * f0 * (1.0 + b * n * n).sqrt();
                let loud = if f < rate * 0.45 { 0.25 / n } else { 0.0 };
                loud * (-t * (0.8 + 0.4 * n)).exp() * (std::f64::consts::TAU * f * t + n).sin()
            };
            let attack = (t * 500.0).min(1.0);
            ((1..=12).map(partial).sum::<f64>() * attack) as f32
        })
        .collect()
}
