//! Two spectra of one sound a few milliseconds apart: how far the phase of a line turns between them is its frequency.

use realfft::num_complex::Complex;

use crate::transform::Transform;

/// Milliseconds between the two: lines are told apart from their aliases within ±31 Hz.
const APART_S: f64 = 0.016;
/// Excess over the floor, as a factor, below which power counts as noise.
const EXCESS: f64 = 4.0;
/// Mean of exponential noise over its lower quartile: −1 ÷ ln 0.75.
const OVER_QUARTILE: f64 = 3.476;

/// Makes pairs of spectra of one length; holds the last pair.
pub(crate) struct Displaced {
    plan: Transform,
    window: Vec<f32>,
    apart: usize,
    /// variance of the turn in phase, times line power over noise power
    spread: f64,
    input: Vec<f32>,
    first: Vec<Complex<f32>>,
    second: Vec<Complex<f32>>,
    /// power of the first by bin
    power: Vec<f64>,
    /// noise power by block of bins
    floors: Vec<f64>,
    block: usize,
    /// power above the floor, summed from the lowest bin on
    summed: Vec<f64>,
    rate_hz: f64,
    bin_hz: f64,
}

/// A spectral line.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Line {
    /// Mean frequency while it was looked at, weighted by its power, Hz.
    pub(crate) hz: f64,
    /// One standard deviation of that by noise alone, Hz.
    pub(crate) sd_hz: f64,
    /// Peak power over the noise about it.
    pub(crate) over_noise: f64,
}

impl Displaced {
    /// For a sound at `rate_hz`, looked at for `seconds`; the floor is taken over stretches of `stretch_hz`.
    pub(crate) fn new(rate_hz: f64, seconds: f64, stretch_hz: f64) -> Self {
        let length = (seconds * rate_hz).round() as usize;
        let apart = ((APART_S * rate_hz).round() as usize).max(1);
        let padded = (2 * length).next_power_of_two();
        let window: Vec<f32> = (0..length)
            .map(|i| {
                let at = std::f64::consts::PI * (i as f64 + 0.5) / length as f64;
                at.sin().powi(2) as f32
            })
            .collect();
        let plan = Transform::new(padded);
        let bin_hz = rate_hz / padded as f64;
        Displaced {
            spread: padded as f64 * turned_by_noise(&window, apart),
            input: plan.input(),
            first: plan.output(),
            second: plan.output(),
            plan,
            window,
            apart,
            power: Vec::new(),
            floors: Vec::new(),
            block: ((stretch_hz / bin_hz) as usize).max(16),
            summed: Vec::new(),
            rate_hz,
            bin_hz,
        }
    }

    /// Samples that a look needs.
    pub(crate) fn length(&self) -> usize {
        self.window.len() + self.apart
    }

    /// Noise of the mean of so many looks, each so many samples after the one before, against that of one look, 0 to 1.
    pub(crate) fn noise_of_mean(&self, looks: usize, every: usize) -> f64 {
        let one = differences(&self.window, self.apart);
        let mut all = vec![0.0; one.len() + looks.saturating_sub(1) * every];
        for k in 0..looks {
            for (sum, d) in all.iter_mut().skip(k * every).zip(&one) {
                *sum += d / looks as f64;
            }
        }
        (power(&all) / power(&one)).sqrt()
    }

    /// Half the width of a steady tone's line, Hz.
    pub(crate) fn line_hz(&self) -> f64 {
        2.0 * self.rate_hz / self.window.len() as f64
    }

    /// Highest frequency that is used, Hz.
    pub(crate) fn top_hz(&self) -> f64 {
        0.45 * self.rate_hz
    }

    /// Looks at `sound`, of [`Displaced::length`] samples.
    pub(crate) fn look(&mut self, sound: &[f32]) {
        let mean = sound.iter().sum::<f32>() / sound.len().max(1) as f32;
        for (start, output) in [(0, &mut self.first), (self.apart, &mut self.second)] {
            self.input.fill(0.0);
            let from = sound.iter().skip(start);
            for ((into, y), w) in self.input.iter_mut().zip(from).zip(&self.window) {
                *into = (y - mean) * w;
            }
            self.plan.process(&mut self.input, output);
        }
        self.power.clear();
        self.power
            .extend(self.first.iter().map(|c| f64::from(c.norm_sqr())));
        self.floors.clear();
        let mut sorted = Vec::new();
        for part in self.power.chunks(self.block) {
            sorted.clear();
            sorted.extend_from_slice(part);
            let quarter = sorted.len() / 4;
            let (_, q, _) = sorted.select_nth_unstable_by(quarter, f64::total_cmp);
            self.floors.push((*q * OVER_QUARTILE).max(1e-12));
        }
        self.summed.clear();
        let mut sum = 0.0;
        for (k, p) in self.power.iter().enumerate() {
            let floor = self.floors[k / self.block];
            if *p > EXCESS * floor {
                sum += p - floor;
            }
            self.summed.push(sum);
        }
    }

    /// Power above the noise from `low_hz` to `high_hz`.
    pub(crate) fn above_noise(&self, low_hz: f64, high_hz: f64) -> f64 {
        let at = |hz: f64| {
            let k = ((hz / self.bin_hz).round().max(0.0) as usize).min(self.summed.len());
            if k == 0 {
                0.0
            } else {
                self.summed.get(k - 1).copied().unwrap_or(0.0)
            }
        };
        (at(high_hz) - at(low_hz)).max(0.0)
    }

    /// Power over noise at `hz`, between bins by a straight line.
    pub(crate) fn over_noise(&self, hz: f64) -> f64 {
        let x = (hz / self.bin_hz).max(0.0);
        let (k, t) = (x as usize, x.fract());
        match (self.power.get(k), self.power.get(k + 1)) {
            (Some(a), Some(b)) => (a * (1.0 - t) + b * t) / self.noise_at(k),
            _ => 0.0,
        }
    }

    /// The strongest line whose peak lies within `within_hz` of `hz`; what reaches `half_hz` to both sides of that peak
    /// is the line.
    pub(crate) fn line(&self, hz: f64, within_hz: f64, half_hz: f64) -> Option<Line> {
        let bin = |hz: f64| (hz / self.bin_hz).round().max(1.0) as usize;
        let (low, high) = (bin(hz - within_hz), bin(hz + within_hz));
        if high + 1 >= self.power.len() || low > high {
            return None;
        }
        let peak = (low..=high).max_by(|a, b| self.power[*a].total_cmp(&self.power[*b]))?;
        let top = self.power[peak];
        // on the skirt of what stands farther off
        if self.power[peak - 1] > top || self.power[peak + 1] > top || top <= 0.0 {
            return None;
        }
        let reach = ((half_hz / self.bin_hz).round() as usize).max(1);
        let last = (peak + reach).min(self.power.len() - 1);
        let mut turn = Complex::new(0.0f64, 0.0);
        let mut whole = 0.0;
        for k in peak.saturating_sub(reach).max(1)..=last {
            let (a, b) = (self.first[k], self.second[k]);
            let (a, b) = (
                Complex::new(f64::from(a.re), f64::from(a.im)),
                Complex::new(f64::from(b.re), f64::from(b.im)),
            );
            turn += b * a.conj();
            whole += self.power[k];
        }
        let turns_to_hz = self.rate_hz / (self.apart as f64 * std::f64::consts::TAU);
        let centre = peak as f64 * self.bin_hz;
        let expected = Complex::from_polar(1.0, -centre / turns_to_hz);
        let noise = self.noise_at(peak);
        Some(Line {
            hz: centre + (turn * expected).arg() * turns_to_hz,
            sd_hz: (self.spread * noise / (2.0 * whole)).sqrt() * turns_to_hz,
            over_noise: top / noise,
        })
    }

    fn noise_at(&self, bin: usize) -> f64 {
        // between the blocks' middles, evenly in its logarithm
        let x = (bin as f64 + 0.5) / self.block as f64 - 0.5;
        let k = x.max(0.0) as usize;
        match (self.floors.get(k), self.floors.get(k + 1)) {
            (Some(a), Some(b)) => a * (b / a).powf(x - k as f64),
            (Some(a), None) => *a,
            _ => f64::MAX,
        }
    }
}

/// Σ(w²(t−D) − w²(t))² ÷ (Σw²)²: what white noise does to the turn between two windows D apart, by projecting it on
/// the tone in each (first order in noise over tone).
fn turned_by_noise(window: &[f32], apart: usize) -> f64 {
    let whole: f64 = window.iter().map(|w| f64::from(*w).powi(2)).sum();
    power(&differences(window, apart)) / (whole * whole)
}

/// w²(t−D) − w²(t).
fn differences(window: &[f32], apart: usize) -> Vec<f64> {
    let mut kernel = vec![0.0; window.len() + apart];
    for (i, w) in window.iter().enumerate() {
        let squared = f64::from(*w).powi(2);
        kernel[i] -= squared;
        kernel[i + apart] += squared;
    }
    kernel
}

fn power(kernel: &[f64]) -> f64 {
    kernel.iter().map(|k| k * k).sum()
}
