//! A stream cut into windows that overlap, each with its spectrum: what follows a ringing sound compares one with the last.

use realfft::num_complex::Complex;

use crate::transform::Transform;

/// Seconds of sound in a window, as near as a power of two of samples comes.
const WINDOW_S: f64 = 0.17;
/// Windows that one sample falls into.
const OVERLAP: usize = 4;

/// One window's spectrum, by bins of `Frames::bin_hz`.
pub(crate) struct Frame {
    /// Seconds from the start of the stream to the middle of the window.
    pub(crate) middle_s: f64,
    pub(crate) bins: Vec<Complex<f32>>,
    pub(crate) power: Vec<f32>,
}

/// Cuts a stream into windows (Hann).
pub(crate) struct Frames {
    plan: Transform,
    shape: Vec<f32>,
    input: Vec<f32>,
    kept: Vec<f32>,
    /// samples before `kept`, counted from this second of the stream
    dropped: usize,
    from_s: f64,
    rate_hz: f64,
}

impl Frames {
    pub(crate) fn new(rate_hz: f64) -> Frames {
        let size = 1usize << (WINDOW_S * rate_hz).log2().round().max(8.0) as u32;
        let plan = Transform::new(size);
        let turn = std::f64::consts::TAU / size as f64;
        let shape = (0..size).map(|i| (0.5 - 0.5 * (turn * (i as f64 + 0.5)).cos()) as f32);
        Frames {
            input: plan.input(),
            shape: shape.collect(),
            plan,
            kept: Vec::new(),
            dropped: 0,
            from_s: 0.0,
            rate_hz,
        }
    }

    /// Width of a bin, Hz.
    pub(crate) fn bin_hz(&self) -> f64 {
        self.rate_hz / self.shape.len() as f64
    }

    /// Seconds from one window to the next.
    pub(crate) fn hop_s(&self) -> f64 {
        (self.shape.len() / OVERLAP) as f64 / self.rate_hz
    }

    /// Half of a window, seconds.
    pub(crate) fn half_s(&self) -> f64 {
        0.5 * self.shape.len() as f64 / self.rate_hz
    }

    /// The samples to come begin at this second; no window holds those before and those to come.
    pub(crate) fn start_at(&mut self, from_s: f64) {
        self.kept.clear();
        self.dropped = 0;
        self.from_s = from_s;
    }

    /// Takes in samples; gives the windows that they complete.
    pub(crate) fn push(&mut self, samples: &[f32]) -> Vec<Frame> {
        self.kept.extend_from_slice(samples);
        let size = self.shape.len();
        let mut frames = Vec::new();
        let mut at = 0;
        while at + size <= self.kept.len() {
            frames.push(self.frame(at));
            at += size / OVERLAP;
        }
        self.kept.drain(..at);
        self.dropped += at;
        frames
    }

    fn frame(&mut self, at: usize) -> Frame {
        let size = self.shape.len();
        let sound = &self.kept[at..at + size];
        for ((into, y), w) in self.input.iter_mut().zip(sound).zip(&self.shape) {
            *into = y * w;
        }
        let mut bins = self.plan.output();
        self.plan.process(&mut self.input, &mut bins);
        let power = bins.iter().map(|c| c.norm_sqr()).collect();
        let middle = (self.dropped + at) as f64 + 0.5 * size as f64;
        Frame {
            middle_s: self.from_s + middle / self.rate_hz,
            bins,
            power,
        }
    }
}
