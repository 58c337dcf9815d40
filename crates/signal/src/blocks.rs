//! Short blocks of sound, each turned back by a partial's own frequency: what is left of a steady partial is a
//! slow complex amplitude, one value a block.

use realfft::num_complex::Complex;

/// Complex amplitude, double precision.
pub(crate) type Phasor = Complex<f64>;

/// The blocks' edges, in samples from the onset.
#[derive(Clone, Debug)]
pub(crate) struct Grid {
    /// First sample of each block, and the end of the last.
    pub(crate) edges: Vec<usize>,
    /// Samples a second.
    pub(crate) rate_hz: f64,
}

impl Grid {
    /// Blocks of whole periods of `f0_hz`, short at first and longer later, from sample `first` to `length`; what is left
    /// over at the end is a block of its own, if it is half as long as the shortest.
    pub(crate) fn new(
        f0_hz: f64,
        first: usize,
        length: usize,
        rate_hz: f64,
        shortest_s: f64,
    ) -> Self {
        let period = rate_hz / f0_hz;
        let mut edges = vec![first];
        let mut periods = 0.0;
        loop {
            let at_s = periods * period / rate_hz;
            let want_s = (0.12 * at_s + shortest_s).min(0.04);
            periods += (want_s * f0_hz).round().max(1.0);
            let edge = first + (periods * period).round() as usize;
            if edge > length {
                // what is left over, if it is worth it
                if length > edges[edges.len() - 1] + (0.5 * shortest_s * rate_hz) as usize {
                    edges.push(length);
                }
                break;
            }
            edges.push(edge);
        }
        Grid { edges, rate_hz }
    }

    /// The end of the last block, seconds from the onset.
    pub(crate) fn length_s(&self) -> f64 {
        self.edges.last().copied().unwrap_or(0) as f64 / self.rate_hz
    }

    /// How many blocks.
    pub(crate) fn len(&self) -> usize {
        self.edges.len() - 1
    }

    /// The middle of block `k`, in seconds from the onset.
    pub(crate) fn middle_s(&self, k: usize) -> f64 {
        0.5 * (self.edges[k] + self.edges[k + 1]) as f64 / self.rate_hz - 0.5 / self.rate_hz
    }

    /// Samples in block `k`.
    pub(crate) fn size(&self, k: usize) -> f64 {
        (self.edges[k + 1] - self.edges[k]) as f64
    }
}

const LANES: usize = 8;

/// Σ y·e^(−iωt) over each block, for each frequency: `out[frequency][block]`, t from the onset.
pub(crate) fn demodulate(sound: &[f32], hz: &[f64], grid: &Grid) -> Vec<Vec<Phasor>> {
    let mut out = vec![vec![Phasor::default(); grid.len()]; hz.len()];
    for (group, lanes) in hz.chunks(LANES).enumerate() {
        let mut step = [(1.0f32, 0.0f32); LANES];
        for (s, f) in step.iter_mut().zip(lanes) {
            let (sin, cos) = (-std::f64::consts::TAU * f / grid.rate_hz).sin_cos();
            *s = (cos as f32, sin as f32);
        }
        for k in 0..grid.len() {
            let block = &sound[grid.edges[k]..grid.edges[k + 1]];
            let sums = turn_back(block, &step);
            for (lane, f) in lanes.iter().enumerate() {
                let start = -std::f64::consts::TAU * f * grid.edges[k] as f64 / grid.rate_hz;
                let turn = Phasor::from_polar(1.0, start);
                out[group * LANES + lane][k] =
                    Phasor::new(sums.0[lane].into(), sums.1[lane].into()) * turn;
            }
        }
    }
    out
}

/// One block against eight oscillators that start at phase 0.
fn turn_back(block: &[f32], step: &[(f32, f32); LANES]) -> ([f32; LANES], [f32; LANES]) {
    let (mut re, mut im) = ([1.0f32; LANES], [0.0f32; LANES]);
    let (mut sum_re, mut sum_im) = ([0.0f32; LANES], [0.0f32; LANES]);
    for &y in block {
        for l in 0..LANES {
            sum_re[l] += y * re[l];
            sum_im[l] += y * im[l];
            let turned = re[l] * step[l].0 - im[l] * step[l].1;
            im[l] = re[l] * step[l].1 + im[l] * step[l].0;
            re[l] = turned;
        }
    }
    (sum_re, sum_im)
}
