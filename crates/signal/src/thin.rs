//! Very high sample rates brought down by halves: what a harp tells lies below 20 kHz.

/// Halves a stream's rate until it is at most 64,000.
pub(crate) struct Thinner {
    halves: Vec<Half>,
    rate_hz: f64,
}

struct Half {
    taps: Vec<f32>,
    tail: Vec<f32>,
}

impl Thinner {
    /// For a stream at `rate_hz`.
    pub(crate) fn new(rate_hz: u32) -> Self {
        let mut rate = f64::from(rate_hz);
        let mut halves = Vec::new();
        while rate > 64_000.0 {
            rate /= 2.0;
            halves.push(Half::new());
        }
        Thinner {
            halves,
            rate_hz: rate,
        }
    }

    /// The rate that comes out, samples a second.
    pub(crate) fn rate_hz(&self) -> f64 {
        self.rate_hz
    }

    /// Takes in samples, gives those that are due. What is no number is no sound, and nothing is louder than a microphone is.
    pub(crate) fn push(&mut self, samples: &[f32]) -> Vec<f32> {
        let sound = |y: &f32| {
            if y.is_finite() {
                y.clamp(-8.0, 8.0)
            } else {
                0.0
            }
        };
        let mut out: Vec<f32> = samples.iter().map(sound).collect();
        for half in &mut self.halves {
            out = half.push(&out);
        }
        out
    }
}

impl Half {
    /// A windowed sinc of 63 taps, cut at 0.22 of the rate, Blackman's window.
    fn new() -> Self {
        let length = 63;
        let mut taps: Vec<f32> = (0..length)
            .map(|i| {
                let x = f64::from(i) - 31.0;
                let sinc = if x == 0.0 {
                    0.44
                } else {
                    (std::f64::consts::PI * 0.44 * x).sin() / (std::f64::consts::PI * x)
                };
                let at = std::f64::consts::TAU * (f64::from(i) + 0.5) / f64::from(length);
                (sinc * (0.42 - 0.5 * at.cos() + 0.08 * (2.0 * at).cos())) as f32
            })
            .collect();
        let sum: f32 = taps.iter().sum();
        for t in &mut taps {
            *t /= sum;
        }
        // half the filter stands before the first sample, so that times stay
        Half {
            taps,
            tail: vec![0.0; 31],
        }
    }

    fn push(&mut self, samples: &[f32]) -> Vec<f32> {
        self.tail.extend_from_slice(samples);
        let mut out = Vec::with_capacity(samples.len() / 2 + 1);
        let mut start = 0;
        while start + self.taps.len() <= self.tail.len() {
            out.push(
                self.tail[start..]
                    .iter()
                    .zip(&self.taps)
                    .map(|(y, t)| y * t)
                    .sum(),
            );
            start += 2;
        }
        self.tail.drain(..start);
        out
    }
}
