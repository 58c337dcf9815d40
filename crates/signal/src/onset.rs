//! When something is struck or plucked: a sudden rise over what sounded just before, in many bands at once.

use realfft::num_complex::Complex;

use crate::transform::Transform;

/// Bands a frame's power is gathered into.
const BANDS: usize = 36;
/// Lowest and highest band edge, Hz.
const LOW_HZ: f64 = 60.0;
const HIGH_HZ: f64 = 16_000.0;
/// Frames that count as 'just before', and those between that are left out.
const MEMORY: usize = 12;
const GAP: usize = 2;
/// Mean rise, in natural logarithms of power over all bands, that is an onset.
const RISE: f32 = 0.32;
/// Neighbouring bands in which a string may rise alone, the rise in each that is clear, and their mean rise beyond it that is an
/// onset.
const OWN: usize = 10;
const CLEAR: f32 = 0.5;
const OWN_RISE: f32 = 0.8;
/// Seconds in which one onset is not followed by another.
const DEAD_S: f64 = 0.07;

/// Finds onsets in a stream.
pub struct OnsetFinder {
    plan: Transform,
    window: Vec<f32>,
    input: Vec<f32>,
    output: Vec<Complex<f32>>,
    edges: Vec<usize>,
    hop: usize,
    tail: Vec<f32>,
    /// samples consumed before `tail`
    at: usize,
    past: Vec<[f32; BANDS]>,
    rises: Vec<f32>,
    last: Option<usize>,
    rate_hz: f64,
}

impl OnsetFinder {
    /// For sound at `rate_hz`.
    pub fn new(rate_hz: f64) -> Self {
        let size = ((rate_hz * 0.0214) as usize).next_power_of_two();
        let size = if size as f64 > rate_hz * 0.03 {
            size / 2
        } else {
            size
        };
        let plan = Transform::new(size);
        let window = (0..size)
            .map(|i| 0.5 - 0.5 * (std::f32::consts::TAU * (i as f32 + 0.5) / size as f32).cos())
            .collect();
        let high = HIGH_HZ.min(0.45 * rate_hz);
        let bin = rate_hz / size as f64;
        let mut edges: Vec<usize> = (0..=BANDS)
            .map(|b| {
                (LOW_HZ * (high / LOW_HZ).powf(b as f64 / BANDS as f64) / bin).round() as usize
            })
            .collect();
        for i in 1..edges.len() {
            edges[i] = edges[i].max(edges[i - 1] + 1).min(size / 2);
        }
        OnsetFinder {
            input: plan.input(),
            output: plan.output(),
            plan,
            window,
            edges,
            hop: (rate_hz * 0.005) as usize,
            tail: Vec::new(),
            at: 0,
            past: Vec::new(),
            rises: Vec::new(),
            last: None,
            rate_hz,
        }
    }

    /// Takes in samples; gives the rough sample number of each onset that they complete.
    pub fn push(&mut self, samples: &[f32]) -> Vec<(usize, f32)> {
        self.tail.extend_from_slice(samples);
        let mut found = Vec::new();
        let size = self.window.len();
        let mut start = 0;
        while start + size <= self.tail.len() {
            let bands = self.bands(start);
            if let Some(at) = self.frame(bands, self.at + start) {
                found.push(at);
            }
            start += self.hop;
        }
        self.tail.drain(..start.min(self.tail.len()));
        self.at += start;
        found
    }

    fn bands(&mut self, start: usize) -> [f32; BANDS] {
        for (i, (into, w)) in self.input.iter_mut().zip(&self.window).enumerate() {
            *into = self.tail[start + i] * w;
        }
        self.plan.process(&mut self.input, &mut self.output);
        let mut bands = [0.0; BANDS];
        for (b, power) in bands.iter_mut().enumerate() {
            let (from, to) = (self.edges[b], self.edges[b + 1].max(self.edges[b] + 1));
            let to = to.min(self.output.len());
            let sum: f32 = self.output[from.min(to)..to]
                .iter()
                .map(Complex::norm_sqr)
                .sum();
            *power = (sum + 1e-9).ln();
        }
        bands
    }

    /// Takes the next frame's bands; an onset is told when its rise is past its peak.
    fn frame(&mut self, bands: [f32; BANDS], at: usize) -> Option<(usize, f32)> {
        let rise = if !self.past.is_empty() {
            let before = &self.past[..self.past.len().saturating_sub(GAP).max(1)];
            let from = before.len().saturating_sub(MEMORY);
            let rises: [f32; BANDS] = std::array::from_fn(|b| {
                let most = before[from..].iter().fold(f32::MIN, |m, p| m.max(p[b]));
                (bands[b] - most).clamp(0.0, 4.0)
            });
            let all = rises.iter().sum::<f32>() / BANDS as f32;
            // a low string in noise rises in its own few bands alone, and there clearly
            let clear = rises.map(|r| (r - CLEAR).max(0.0));
            let own = clear
                .windows(OWN)
                .map(|w| w.iter().sum::<f32>() / OWN as f32)
                .fold(0.0, f32::max);
            all.max(own * RISE / OWN_RISE)
        } else {
            // a sound may begin on the pluck
            let loud = bands.iter().filter(|b| **b > -9.0).count();
            if loud > BANDS / 3 { RISE } else { 0.0 }
        };
        self.past.push(bands);
        if self.past.len() > 4 * MEMORY {
            self.past.drain(..2 * MEMORY);
        }
        self.rises.push(rise);
        let n = self.rises.len();
        if n > 8 {
            self.rises.remove(0);
        }
        let n = self.rises.len();
        let (before, peak) = if n > 1 {
            (self.rises[n - 2], rise)
        } else {
            (0.0, rise)
        };
        // the first frame over the threshold: its newest samples hold the onset
        if self.past.len() == 1 {
            return (peak >= RISE).then_some((0, peak));
        }
        // the first frames know little of what is usual
        let few = self.past.len() < 12;
        let least = if few { 4.0 * RISE } else { RISE };
        if peak < least || (before >= least && !few) {
            return None;
        }
        let dead = (DEAD_S * self.rate_hz) as usize;
        if self.last.is_some_and(|l| at < l + dead) {
            return None;
        }
        self.last = Some(at);
        Some((at + self.window.len() - self.hop, peak))
    }
}

/// Power against the loudest nearby, below which a rise is no pluck's: −30 dB.
const FLOOR: f64 = 1e-3;

/// The onset to about a millisecond, within `sound` (rough place at `rough`): where the rise of whichever of the whole
/// sound and its highest part rises most passes a sixth of its height.
pub fn refine(sound: &[f32], rough: usize, rate_hz: f64) -> usize {
    let ms = (rate_hz / 1000.0) as usize;
    let (from, to) = (
        rough.saturating_sub(28 * ms),
        (rough + 14 * ms).min(sound.len()),
    );
    if to < from + 12 * ms || ms == 0 {
        return rough.min(sound.len());
    }
    let envelope = |high: bool| -> Vec<f64> {
        (from..to - 3)
            .step_by(ms)
            .map(|a| {
                let b = (a + ms).min(to - 3);
                (a..b)
                    .map(|i| {
                        let y = if high {
                            sound[i + 3] - 3.0 * sound[i + 2] + 3.0 * sound[i + 1] - sound[i]
                        } else {
                            sound[i]
                        };
                        f64::from(y) * f64::from(y)
                    })
                    .sum::<f64>()
                    / ms as f64
            })
            .collect()
    };
    let mut best = (0.0, rough);
    for high in [true, false] {
        let e = envelope(high);
        // out of digital silence anything rises without end
        let floor = FLOOR * e.iter().fold(0.0f64, |m, x| m.max(*x)) + 1e-12;
        // the place where the next few milliseconds stand highest over the last few
        for k in 3..e.len().saturating_sub(3) {
            let before = e[..k].iter().rev().take(10).fold(floor, |m, x| m.max(*x));
            let after = (e[k] + e[k + 1] + e[k + 2]) / 3.0;
            let jump = (after / before).ln() * if e[k] > before * 1.5 { 1.0 } else { 0.6 };
            if jump > best.0 {
                // the jump lies within this millisecond: late does no harm, early does
                best = (jump, from + (k + 1) * ms);
            }
        }
    }
    best.1
}
