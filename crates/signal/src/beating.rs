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

/// Covariance of a partial's relative residual: noise, what beats with it, what rings along with it.
pub(crate) fn covariance(t: &Track, r: &Rotated, grid: &Grid, rho: f64, echo: f64) -> Vec<f64> {
    let blocks = grid.len();
    let f = t.now_hz();
    let (m, x) = (&r.m, &r.x);
    let mut s = vec![0.0; blocks * blocks];
    let spread = 0.4 + f / 1500.0;
    let (s1, s2) = (
        std::f64::consts::TAU * 0.1 * spread,
        std::f64::consts::TAU * 0.7 * spread,
    );
    let sigma = 5.0 * CENT * f * std::f64::consts::TAU;
    let slow: Vec<[f64; 3]> = x
        .iter()
        .map(|x| [0.5, 0.7, 0.9].map(|q| ((1.0 - q) * t.decay * x).min(6.0).exp()))
        .collect();
    let ring = 6.9 / ring_time_s(f);
    let echo = echo * echo_share(t.n) / echo_norm(ring);
    let rise: Vec<f64> = x
        .iter()
        .map(|x| (1.0 - (-x / 0.12).exp()) * (-ring * x).exp())
        .collect();
    for k in 0..blocks {
        for l in 0..=k {
            let lag = x[k] - x[l];
            let mut v = 0.0;
            if rho > 0.0 {
                let near = if lag < 1e-9 {
                    1.0
                } else {
                    ((s2 * lag).sin() - (s1 * lag).sin()) / ((s2 - s1) * lag)
                };
                let slow =
                    (slow[k][0] * slow[l][0] + slow[k][1] * slow[l][1] + slow[k][2] * slow[l][2])
                        / 3.0;
                v += 0.5 * rho * rho * near * slow;
            }
            if echo > 0.0 {
                let near = (-0.5 * (sigma * lag).powi(2)).exp();
                v += 0.5 * echo * echo * near * rise[k] * rise[l] / (m[k] * m[l]);
            }
            if t.stood > 0.0 {
                // it may lie some hertz beside the partial, and dies as strings here do
                let near = (-0.5 * (STOOD_HZ * std::f64::consts::TAU * lag).powi(2)).exp();
                let dying = (-ring * (x[k] + x[l])).exp();
                v += 0.5 * t.stood * t.stood * near * dying / (m[k] * m[l]);
            }
            if k == l {
                v += 0.5 * t.noise[k] / (grid.size(k) * grid.size(k) * m[k] * m[k]);
            }
            s[k * blocks + l] = v;
            s[l * blocks + k] = v;
        }
    }
    s
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
