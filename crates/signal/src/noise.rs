//! What else sounds: steady noise between the partials, and the finger's at the start.

use crate::blocks::{Grid, Phasor};
use crate::comb::Law;
use crate::leak::{Ring, Turn};
use crate::track::Track;

/// Power over the later power, of the highest sound, from which the first milliseconds hold a finger's noise.
const FINGER: f64 = 3.5;

/// Whether the first milliseconds hold a finger's noise: high sound that dies within some milliseconds, faster than any
/// string. A pluck without it is no pluck of a hand, and nothing else that hands do need be looked for.
pub fn attack_noise(sound: &[f32], rate_hz: f64) -> bool {
    let power = |from_s: f64, to_s: f64| -> f64 {
        let (a, b) = ((from_s * rate_hz) as usize, (to_s * rate_hz) as usize);
        if b > sound.len() || b < a + 8 {
            return 0.0;
        }
        // fifth difference: what is left lies above all but the faintest partials
        let sum: f64 = sound[a..b]
            .windows(6)
            .map(|w| f64::from(w[5] - w[0] + 5.0 * (w[1] - w[4]) + 10.0 * (w[3] - w[2])).powi(2))
            .sum();
        sum / (b - a - 5) as f64
    };
    // at low rates nothing lies high enough to judge by
    if rate_hz < 30_000.0 {
        return true;
    }
    let late = power(0.025, 0.045);
    late <= 0.0 || power(0.001, 0.007) > FINGER * late
}

/// Frequencies between the partials of `law`, at which nothing of the string should sound, Hz.
pub(crate) fn probes(law: Law, count: usize) -> Vec<f64> {
    let f1 = law.partial(1);
    if f1 < 160.0 {
        (0..=count)
            .map(|n| (n as f64 + 0.5) * f1 * (1.0 + law.b * (n * n) as f64).sqrt())
            .collect()
    } else {
        (1..=count)
            .flat_map(|n| [law.partial(n) - 80.0, law.partial(n) + 80.0])
            .collect()
    }
}

/// Noise power of each partial's blocks, from probes between the partials.
pub(crate) fn noise_levels(
    probes: &[f64],
    raw: &[Vec<Phasor>],
    tracks: &[Track],
    grid: &Grid,
    attack: bool,
) -> Vec<Vec<f64>> {
    let blocks = grid.len();
    let mut density = vec![vec![0.0; blocks]; probes.len()];
    let rings: Vec<Ring> = tracks.iter().map(|t| Ring::of(t, grid)).collect();
    for (p, hz) in probes.iter().enumerate() {
        let turn = Turn::of(*hz, grid);
        let mut left = raw[p].clone();
        for ring in &rings {
            ring.take_off(&turn, &mut left);
        }
        for k in 0..blocks {
            density[p][k] = left[k].norm_sqr() / grid.size(k);
        }
    }
    let early = (0..blocks).filter(|k| grid.middle_s(*k) < 0.09).count();
    let mut out = Vec::with_capacity(tracks.len());
    for t in tracks {
        // probes near this partial
        let away = |p: usize| (probes[p] - t.hz).abs();
        let mut near: Vec<usize> = Vec::new();
        for p in 0..probes.len() {
            let place = near.partition_point(|q| away(*q).total_cmp(&away(p)).is_le());
            near.insert(place, p);
            near.truncate(6);
        }
        let late: Vec<usize> = if blocks - early >= 3 {
            (early..blocks).collect()
        } else {
            (0..blocks).collect()
        };
        let (mut sum, mut w) = (0.0, 0.0);
        for (rank, p) in near.iter().enumerate() {
            let weight = if rank < 2 { 1.0 } else { 0.5 } * probes[*p] / t.hz; // pink
            for k in &late {
                sum += weight * density[*p][*k];
                w += weight * t.hz / probes[*p];
            }
        }
        let steady = (sum / w).max(1e-14);
        let mut levels = vec![steady; blocks];
        for (k, level) in levels.iter_mut().enumerate().take(early) {
            let mean: f64 = near
                .iter()
                .map(|p| density[*p][k] * probes[*p] / t.hz)
                .sum::<f64>()
                / near.len() as f64;
            let ratio = mean / steady;
            // only a clear excess is a transient
            if attack && ratio > 1.6 {
                *level = mean;
            }
        }
        out.push(
            levels
                .iter()
                .enumerate()
                .map(|(k, l)| l * grid.size(k))
                .collect(),
        );
    }
    out
}
