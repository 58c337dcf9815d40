//! What moves a partial beside noise: its own second direction of motion, and the strings that ring along.

use crate::blocks::Grid;
use crate::cent::CENT;
use crate::prior::along;
use crate::track::Track;

/// How far what sounded before may lie beside a partial, Hz (one standard deviation).
const STOOD_HZ: f64 = 2.5;

pub(crate) struct Rotated {
    /// model amplitude per sample, middle of block in seconds
    pub(crate) m: Vec<f64>,
    pub(crate) x: Vec<f64>,
}

pub(crate) fn rotated(t: &Track, grid: &Grid) -> Rotated {
    let mut r = Rotated {
        m: vec![],
        x: vec![],
    };
    for k in 0..grid.len() {
        r.x.push(grid.middle_s(k));
        r.m.push((t.amp.norm() * (-t.decay * grid.middle_s(k)).exp()).max(1e-12));
    }
    r
}

/// Covariance of a partial's relative residual, in the parts it is made of: row by row, its lower half.
pub(crate) struct Covariance {
    /// what beats with the partial, for a depth of 1
    beating: Vec<f64>,
    /// noise, what rings along with it, what stood there before
    rest: Vec<f64>,
}

impl Covariance {
    pub(crate) fn of(t: &Track, r: &Rotated, grid: &Grid, echo: f64) -> Covariance {
        let blocks = grid.len();
        let f = t.now_hz();
        let (m, x) = (&r.m, &r.x);
        let near_of = beats_near(f);
        let sigma = 5.0 * CENT * f * std::f64::consts::TAU;
        let slow: Vec<[f64; 3]> = x
            .iter()
            .map(|x| [0.5, 0.7, 0.9].map(|q| ((1.0 - q) * t.decay * x).min(6.0).exp()))
            .collect();
        let ring = 6.9 / ring_time_s(f);
        let echo = echo * echo_share(t.n) / echo_norm(ring);
        let dying: Vec<f64> = x.iter().map(|x| (-ring * x).exp()).collect();
        let rise: Vec<f64> = x
            .iter()
            .zip(&dying)
            .map(|(x, dying)| (1.0 - (-x / 0.12).exp()) * dying)
            .collect();
        let mut beating = vec![0.0; blocks * blocks];
        let mut rest = vec![0.0; blocks * blocks];
        for k in 0..blocks {
            for l in 0..=k {
                let lag = x[k] - x[l];
                let slow: f64 = slow[k].iter().zip(&slow[l]).map(|(k, l)| k * l).sum();
                beating[k * blocks + l] = 0.5 * near_of(lag) * slow / 3.0;
                let mut v = 0.0;
                if echo > 0.0 {
                    let near = (-0.5 * (sigma * lag).powi(2)).exp();
                    v += 0.5 * echo * echo * near * rise[k] * rise[l] / (m[k] * m[l]);
                }
                if t.stood > 0.0 {
                    // it may lie some hertz beside the partial, and dies as strings here do
                    let near = (-0.5 * (STOOD_HZ * std::f64::consts::TAU * lag).powi(2)).exp();
                    v += 0.5 * t.stood * t.stood * near * dying[k] * dying[l] / (m[k] * m[l]);
                }
                if k == l {
                    v += 0.5 * t.noise[k] / (grid.size(k) * grid.size(k) * m[k] * m[k]);
                }
                rest[k * blocks + l] = v;
            }
        }
        Covariance { beating, rest }
    }

    /// The lower half, row by row, where what beats with the partial has `rho` of its strength; above it, zeros.
    pub(crate) fn beaten(&self, rho: f64) -> Vec<f64> {
        let depth = rho * rho;
        let both = self.beating.iter().zip(&self.rest);
        both.map(|(beating, rest)| depth * beating + rest).collect()
    }
}

/// How alike two moments `lag` seconds apart are in what beats with a partial of `hz`: any rate in a band, equally likely.
fn beats_near(hz: f64) -> impl Fn(f64) -> f64 {
    let spread = std::f64::consts::TAU * (0.4 + hz / 1500.0);
    let (slowest, fastest) = (0.1 * spread, 0.7 * spread);
    move |lag| {
        if lag < 1e-9 {
            1.0
        } else {
            ((fastest * lag).sin() - (slowest * lag).sin()) / ((fastest - slowest) * lag)
        }
    }
}

/// What the strings an octave, a fifth and a twelfth away put on partial `n`, against the strongest they ring with.
pub(crate) fn echo_share(n: usize) -> f64 {
    let mut sum = 0.0;
    for (up, down) in [(1usize, 2usize), (2, 1), (3, 2), (2, 3), (3, 1)] {
        // their partial m stands where ours stands: m·up/down = n; the lowest such m rings loudest
        if (n * down).is_multiple_of(up) {
            let m = n * down / up;
            sum += (down as f64 / m as f64).powi(2);
        }
    }
    sum.sqrt()
}

/// Root mean square of the ringing-along over half a second, against its envelope.
pub(crate) fn echo_norm(ring: f64) -> f64 {
    let part = |r: f64| (1.0 - (-r * 0.5).exp()) / r;
    let (a, b) = (2.0 * ring, 1.0 / 0.12);
    ((part(a) - 2.0 * part(a + b) + part(a + 2.0 * b)) / 0.5)
        .max(1e-9)
        .sqrt()
}

/// Seconds to −60 dB of a string of `hz`.
pub(crate) fn ring_time_s(hz: f64) -> f64 {
    let points: [(f64, f64); 5] = [
        (32.7, 10.0),
        (261.6, 8.0),
        (523.0, 5.0),
        (1760.0, 1.1),
        (3136.0, 0.5),
    ];
    along(&points, hz)
}
