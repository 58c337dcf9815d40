//! The law that a string's partials keep between them, and what a stray or faint partial takes from it.

use crate::beating::echo_share;
use crate::blocks::{Grid, Phasor};
use crate::cent::CENT;
use crate::comb::Law;
use crate::prior::Prior;
use crate::track::{Track, block_sums};

/// The law that the partials keep best, each by its strength: cents above `law`'s f0, and ln B.
pub(crate) fn law_of(tracks: &[Track], grid: &Grid, law: Law, prior: Prior) -> (f64, f64) {
    let length_s = grid.length_s();
    let loudest = tracks.iter().map(|t| t.amp.norm()).fold(0.0, f64::max);
    let powers: Vec<f64> = tracks.iter().map(|t| t.strength(grid)).collect();
    let (mut x, mut lb) = (0.0, law.b.ln());
    for _ in 0..6 {
        let b = lb.exp();
        let (mut h, mut v) = ([[0.0; 2]; 2], [0.0; 2]);
        for (t, power) in tracks.iter().zip(&powers) {
            let n2 = (t.n * t.n) as f64;
            let hz_var = 0.15 / (power.max(0.1) * length_s * length_s) + 0.002;
            // what rings along may pull a weak partial by its distance, some five cents
            let pull = 0.02 * loudest * echo_share(t.n) / t.amp.norm().max(1e-12);
            let var = hz_var / (t.hz * CENT).powi(2) + 0.2 + (5.0 * pull).powi(2).min(100.0);
            let e = (t.now_hz() / (t.n as f64 * law.f0_hz)).ln() / CENT
                - x
                - 0.5 / CENT * (b * n2).ln_1p();
            let w = 4.0 / (3.0 + e * e / var) / var;
            let bend = 0.5 / CENT * b * n2 / (1.0 + b * n2);
            h[0][0] += w;
            h[0][1] += w * bend;
            h[1][1] += w * bend * bend;
            v[0] += w * e;
            v[1] += w * bend * e;
        }
        h[1][1] += 1.0 / prior.b_spread.powi(2);
        v[1] += (prior.b.ln() - lb) / prior.b_spread.powi(2);
        let det = h[0][0] * h[1][1] - h[0][1] * h[0][1];
        x += (h[1][1] * v[0] - h[0][1] * v[1]) / det;
        lb += ((h[0][0] * v[1] - h[0][1] * v[0]) / det).clamp(-0.7, 0.7);
    }
    (x, lb)
}

/// Brings back to the law the partials that a wrong peak has led astray.
pub(crate) fn follow_law(tracks: &mut [Track], grid: &Grid, law: Law, prior: Prior) {
    let length_s = grid.length_s();
    let (x, lb) = law_of(tracks, grid, law, prior);
    for t in tracks.iter_mut() {
        let n2 = (t.n * t.n) as f64;
        let hz = t.n as f64 * law.f0_hz * (1.0 + lb.exp() * n2).sqrt() * (x * CENT).exp();
        let strong = if t.strength(grid) > 60.0 { 2.0 } else { 1.0 };
        if (t.now_hz() - hz).abs() > strong * (0.25 / length_s).max(3.0 * CENT * hz) {
            t.shift_hz = hz - t.hz;
            let (mut num, mut den) = (Phasor::default(), 1e-30);
            for (c, m) in t.clean.iter().zip(block_sums(t.exponent(), grid)) {
                num += c * m.conj();
                den += m.norm_sqr();
            }
            t.amp = num / den;
        }
    }
}

/// A partial near the noise takes its decay from stronger ones about it.
pub(crate) fn lend_decay(tracks: &mut [Track], grid: &Grid) {
    let known: Vec<(f64, f64, f64)> = tracks
        .iter()
        .map(|t| {
            (
                t.n as f64,
                t.decay.ln(),
                (t.strength(grid) / 60.0).min(20.0),
            )
        })
        .collect();
    for (t, (n, own, weight)) in tracks.iter_mut().zip(&known) {
        let (mut sum, mut total) = (weight * own, *weight);
        for (m, d, w) in &known {
            if *w > 1.0 {
                // higher partials die faster: what is lent is brought to this number
                let shape = |n: f64| (1.0 + 0.15 * (n - 1.0) + 0.008 * (n - 1.0) * (n - 1.0)).ln();
                let near = 0.5 * w / (1.0 + (n - m).abs());
                sum += near * (d + shape(*n) - shape(*m)) / (1.0 + weight);
                total += near / (1.0 + weight);
            }
        }
        if total > 0.0 {
            t.decay = (sum / total).exp().clamp(0.02, 80.0);
        }
    }
}
