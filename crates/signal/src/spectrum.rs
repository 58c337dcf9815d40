//! The power spectrum of the first moments after an onset, and the floor it stands on.

use crate::transform::Transform;

/// Makes spectra of one padded length; keeps its plan and its buffers.
pub struct Spectrograph {
    plan: Transform,
    input: Vec<f32>,
    output: Vec<realfft::num_complex::Complex<f32>>,
    rate_hz: f64,
}

/// Power by frequency, with the level that noise alone would give at each.
pub struct Spectrum {
    /// Power of each bin.
    pub power: Vec<f32>,
    /// Width of a bin, Hz.
    pub bin_hz: f64,
    /// Half width of a spectral line, Hz.
    pub line_hz: f64,
    /// Sum of the window: a steady tone's peak power is its amplitude² × weight² ÷ 4.
    pub weight: f64,
    floor: Vec<f32>,
    floor_edges: Vec<usize>,
}

impl Spectrograph {
    /// For segments of up to `longest` samples at `rate_hz`.
    pub fn new(longest: usize, rate_hz: f64) -> Self {
        let padded = (2 * longest).next_power_of_two();
        let plan = Transform::new(padded);
        let input = plan.input();
        let output = plan.output();
        Spectrograph {
            plan,
            input,
            output,
            rate_hz,
        }
    }

    /// The spectrum of `sound`, weighted so that its first quarter counts most: a pluck is loudest there.
    pub fn of(&mut self, sound: &[f32]) -> Spectrum {
        let length = sound.len().min(self.input.len());
        self.input.fill(0.0);
        let mut weight = 0.0;
        for (i, (into, from)) in self.input.iter_mut().zip(&sound[..length]).enumerate() {
            let at = ((i as f32 + 0.5) / length as f32).sqrt();
            let rise = (std::f32::consts::PI * at).sin();
            *into = from * rise * rise;
            weight += f64::from(rise * rise);
        }
        self.plan.process(&mut self.input, &mut self.output);
        let power: Vec<f32> = self.output.iter().map(|c| c.norm_sqr()).collect();
        let bin_hz = self.rate_hz / self.input.len() as f64;
        let line_hz = 2.0 * self.rate_hz / length as f64;
        let (floor, floor_edges) = floor_of(&power, bin_hz, line_hz);
        Spectrum {
            power,
            bin_hz,
            line_hz,
            weight,
            floor,
            floor_edges,
        }
    }
}

impl Spectrum {
    /// Power at `hz`, between bins by a parabola through the logarithm's three nearest.
    pub fn at(&self, hz: f64) -> f32 {
        let x = hz / self.bin_hz;
        let i = x as usize;
        if i + 1 >= self.power.len() {
            return 0.0;
        }
        let t = (x - i as f64) as f32;
        self.power[i] * (1.0 - t) + self.power[i + 1] * t
    }

    /// The floor at `hz`.
    pub fn floor(&self, hz: f64) -> f32 {
        let bin = (hz / self.bin_hz) as usize;
        let band = self.floor_edges.partition_point(|e| *e <= bin).max(1) - 1;
        self.floor[band.min(self.floor.len() - 1)]
    }

    /// Power of the strongest bin within `half_hz` of `hz`.
    pub fn most(&self, hz: f64, half_hz: f64) -> f32 {
        let (low, high) = self.bins(hz, half_hz);
        let bins = &self.power[low.min(high)..=high];
        bins.iter()
            .fold(0.0, |most, p| if *p > most { *p } else { most })
    }

    fn bins(&self, hz: f64, half_hz: f64) -> (usize, usize) {
        let low = (((hz - half_hz) / self.bin_hz).ceil().max(1.0)) as usize;
        let high = (((hz + half_hz) / self.bin_hz) as usize).min(self.power.len() - 2);
        (low, high)
    }

    /// Power of the strongest bin within `half_hz` of `hz`, and its frequency.
    pub fn peak(&self, hz: f64, half_hz: f64) -> (f64, f32) {
        let (low, high) = self.bins(hz, half_hz);
        let mut best = low.min(high);
        for i in low..=high {
            if self.power[i] > self.power[best] {
                best = i;
            }
        }
        let l = |i: usize| (self.power[i].max(1e-30) as f64).ln();
        let (a, b, c) = (l(best - 1), l(best), l(best + 1));
        let curve = a - 2.0 * b + c;
        let shift = if curve < 0.0 {
            (0.5 * (a - c) / curve).clamp(-0.5, 0.5)
        } else {
            0.0
        };
        ((best as f64 + shift) * self.bin_hz, self.power[best])
    }
}

/// The lower quartile of each third of an octave, scaled to the mean of exponential noise.
fn floor_of(power: &[f32], bin_hz: f64, line_hz: f64) -> (Vec<f32>, Vec<usize>) {
    let mut edges = vec![0usize];
    let mut hz = 20.0f64;
    while (hz / bin_hz) as usize + 8 < power.len() {
        let e = (hz / bin_hz) as usize;
        if e > edges[edges.len() - 1] + (3.0 * line_hz / bin_hz) as usize {
            edges.push(e);
        }
        hz *= 1.26;
    }
    let mut floor = Vec::with_capacity(edges.len());
    let mut sorted = Vec::new();
    for (i, &from) in edges.iter().enumerate() {
        let to = edges.get(i + 1).copied().unwrap_or(power.len());
        sorted.clear();
        sorted.extend_from_slice(&power[from..to]);
        let quarter = sorted.len() / 4;
        let (_, q, _) = sorted.select_nth_unstable_by(quarter, f32::total_cmp);
        floor.push((*q / 0.2877).max(1e-20));
    }
    (floor, edges)
}
