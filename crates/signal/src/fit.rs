//! The stiff-string fit of one pluck.

use crate::blocks::{Grid, Phasor, demodulate};
use crate::comb::Law;
use crate::small::{cholesky, dot, forward};

pub const CENT: f64 = 0.000_577_789_5; // ln 2 / 1200
const TAUS: [f64; 4] = [0.08, 0.13, 0.2, 0.3];

/// Energy over noise from which a partial counts as heard.
const PRESENT: f64 = 20.0;

/// What is believed before listening.
#[derive(Clone, Copy, Debug)]
pub struct Prior {
    pub b: f64,
    pub b_spread: f64,
    pub glide_cents: f64,
}

/// One partial as it rings: amplitude at the onset, decay per second, distance from its reference frequency.
#[derive(Clone, Debug)]
pub struct Track {
    pub n: usize,
    pub hz: f64,
    pub shift_hz: f64,
    pub amp: Phasor,
    pub decay: f64,
    raw: Vec<Phasor>,
    clean: Vec<Phasor>,
    noise: Vec<f64>,
}

/// A partial measured by itself.
#[derive(Clone, Copy, Debug)]
pub struct FitPartial {
    pub n: usize,
    pub hz: f64,
    pub sd_cents: f64,
}

#[derive(Clone, Debug)]
pub struct Fit {
    pub f1_hz: f64,
    pub f1_sd: f64,
    pub heard_hz: f64,
    pub heard_sd: f64,
    pub law: Law,
    pub glide_cents: f64,
    pub plain: f64,
    pub partials: Vec<FitPartial>,
    pub debug: Vec<f64>,
}

fn block_sum(s: Phasor, grid: &Grid, k: usize) -> Phasor {
    let size = grid.size(k);
    let step = s / grid.rate_hz;
    let half = step * (size / 2.0);
    let shape = if half.norm_sqr() < 1e-4 {
        Phasor::new(size, 0.0) * (1.0 + half * half / 6.0)
    } else {
        half.sinh() / (step * 0.5).sinh()
    };
    (s * grid.middle_s(k)).exp() * shape
}

impl Track {
    fn exponent(&self, away_hz: f64) -> Phasor {
        Phasor::new(
            -self.decay,
            std::f64::consts::TAU * (self.shift_hz + away_hz),
        )
    }
    fn model(&self, grid: &Grid, k: usize) -> Phasor {
        self.amp * block_sum(self.exponent(0.0), grid, k)
    }
    /// what this partial leaks into blocks turned back by `hz`
    fn leak(&self, hz: f64, grid: &Grid, k: usize) -> Phasor {
        self.amp * block_sum(self.exponent(self.hz - hz), grid, k)
    }
    fn mirror(&self, hz: f64, grid: &Grid, k: usize) -> Phasor {
        let s = Phasor::new(
            -self.decay,
            -std::f64::consts::TAU * (self.shift_hz + self.hz + hz),
        );
        self.amp.conj() * block_sum(s, grid, k)
    }
    fn strength(&self, grid: &Grid) -> f64 {
        (0..grid.len())
            .map(|k| self.model(grid, k).norm_sqr() / self.noise[k])
            .sum()
    }
    pub fn now_hz(&self) -> f64 {
        self.hz + self.shift_hz
    }
}

/// What a partial counts for in the sounding pitch: n² × its energy from 50 to 500 ms.
struct Weight {
    n: f64,
    size: f64,
    /// relative variance of the size
    doubt: f64,
}

impl Track {
    fn weight(&self, grid: &Grid) -> Weight {
        let (mut energy, mut noise, mut seen) = (0.0, 0.0, 0.0);
        for k in 0..grid.len() {
            let (from, to) = (
                grid.edges[k] as f64 / grid.rate_hz,
                grid.edges[k + 1] as f64 / grid.rate_hz,
            );
            let share = ((to.min(0.5) - from.max(0.05)) / (to - from)).clamp(0.0, 1.0);
            let size = grid.size(k);
            energy += share * (self.clean[k].norm_sqr() - self.noise[k]) / size;
            noise += share * self.clean[k].norm_sqr() * self.noise[k] / (size * size);
            seen += share * (-2.0 * self.decay * grid.middle_s(k)).exp() * (to - from);
        }
        let d = (2.0 * self.decay).max(1e-3);
        let whole = ((-d * 0.05).exp() - (-d * 0.5).exp()) / d;
        let stretch = (whole / seen.max(1e-9)).clamp(1.0, 50.0);
        let energy = energy.max(1e-12);
        let n = self.n as f64;
        Weight {
            n,
            size: n * n * energy * stretch,
            doubt: (2.0 * noise / (energy * energy) + 0.03 * (1.0 - 1.0 / stretch)).min(1.0),
        }
    }
}

/// Fits a string near `law` to the sound from its onset on.
pub fn fit(sound: &[f32], rate_hz: f64, law: Law, prior: Prior) -> Option<Fit> {
    let f1 = law.partial(1);
    let attack = attack_noise(sound, rate_hz);
    let first = if attack {
        (0.012 * rate_hz) as usize
    } else {
        0
    };
    // what is left after a string has all but died is other strings'
    let useful = if attack { (0.9 * ring_time_s(f1)).max(0.2) } else { 9.0 };
    let length = sound.len().min((useful * rate_hz) as usize);
    let grid = Grid::new(f1, first, length, rate_hz, 0.006);
    let blocks = grid.len();
    if blocks < 3 {
        return None;
    }
    let length_s = grid.edges[blocks] as f64 / rate_hz;
    let top = (0.45 * rate_hz).min(14000.0);
    let count = (1..=50).take_while(|n| law.partial(*n) < top).count();
    let hz: Vec<f64> = (1..=count).map(|n| law.partial(n)).collect();
    let guard = if f1 < 160.0 { 0.5 * f1 } else { 80.0 };
    let probes: Vec<f64> = if f1 < 160.0 {
        (0..=count)
            .map(|n| (n as f64 + 0.5) * f1 * (1.0 + law.b * (n * n) as f64).sqrt())
            .collect()
    } else {
        hz.iter().flat_map(|f| [f - guard, f + guard]).collect()
    };
    let mut all = hz.clone();
    all.extend(&probes);
    let mut turned = demodulate(sound, &all, &grid);
    let probe_raw = turned.split_off(count);
    let mut tracks: Vec<Track> = turned
        .into_iter()
        .enumerate()
        .map(|(i, raw)| start_track(i + 1, hz[i], raw, &grid, length_s))
        .collect();
    let mut noise = vec![vec![0.0; blocks]; count];
    for sweep in 0..4 {
        subtract_neighbours(&mut tracks, &grid, f1);
        if sweep < 3 {
            noise = noise_levels(&probes, &probe_raw, &tracks, &grid, f1, attack);
        }
        for (t, n) in tracks.iter_mut().zip(&noise) {
            t.noise.clone_from(n);
            improve(t, &grid);
        }
        if sweep > 0 {
            lend_decay(&mut tracks, &grid);
        }
        if sweep < 2 {
            follow_law(&mut tracks, &grid, law, prior, length_s);
        }
    }
    let _ = length_s;
    subtract_neighbours(&mut tracks, &grid, f1);
    combine(&tracks, &grid, law, prior, attack)
}

/// Whether the first milliseconds hold a finger's noise: high sound that dies within some milliseconds, faster than any
/// string. A pluck without it is no pluck of a hand, and nothing else that hands do need be looked for.
pub fn attack_noise(sound: &[f32], rate_hz: f64) -> bool {
    let power = |from_s: f64, to_s: f64| -> f64 {
        let (a, b) = ((from_s * rate_hz) as usize, (to_s * rate_hz) as usize);
        if b > sound.len() || b < a + 8 {
            return 0.0;
        }
        // third difference: what is left lies high
        let sum: f64 = sound[a..b]
            .windows(4)
            .map(|w| f64::from(w[3] - 3.0 * w[2] + 3.0 * w[1] - w[0]).powi(2))
            .sum();
        sum / (b - a - 3) as f64
    };
    // at low rates nothing lies high enough to judge by
    if rate_hz < 30_000.0 {
        return true;
    }
    let late = power(0.017, 0.025);
    late <= 0.0 || power(0.001, 0.009) > 2.2 * late
}

fn start_track(n: usize, hz: f64, raw: Vec<Phasor>, grid: &Grid, length_s: f64) -> Track {
    // strongest of a few frequencies near the reference
    let mut best = (0.0, 0.0);
    let reach = (0.7 / length_s).max(hz * 1.5 * CENT);
    let steps = (reach * length_s * 5.0).ceil() as i32;
    for i in -steps..=steps {
        let shift = reach * f64::from(i) / f64::from(steps);
        let mut sum = Phasor::default();
        for (k, c) in raw.iter().enumerate() {
            sum += c * Phasor::from_polar(1.0, -std::f64::consts::TAU * shift * grid.middle_s(k));
        }
        if sum.norm_sqr() > best.0 {
            best = (sum.norm_sqr(), shift);
        }
    }
    let shift = best.1;
    // decay from log amplitude, weighted by power
    let (mut w, mut wt, mut wtt, mut wl, mut wtl) = (1e-30, 0.0, 0.0, 0.0, 0.0);
    for (k, c) in raw.iter().enumerate() {
        let t = grid.middle_s(k);
        let a = c.norm_sqr() / (grid.size(k) * grid.size(k));
        let l = 0.5 * (a + 1e-30).ln();
        w += a;
        wt += a * t;
        wtt += a * t * t;
        wl += a * l;
        wtl += a * t * l;
    }
    let det = w * wtt - wt * wt;
    let decay = if det > 1e-12 * w * w {
        (-(w * wtl - wt * wl) / det).clamp(0.1, 60.0)
    } else {
        3.0
    };
    let (mut num, mut den) = (Phasor::default(), 1e-30);
    let s = Phasor::new(-decay, std::f64::consts::TAU * shift);
    for (k, c) in raw.iter().enumerate() {
        let m = block_sum(s, grid, k);
        num += c * m.conj();
        den += m.norm_sqr();
    }
    Track {
        n,
        hz,
        shift_hz: shift,
        amp: num / den,
        decay,
        clean: raw.clone(),
        raw,
        noise: vec![],
    }
}

/// A partial near the noise takes its decay from stronger ones about it.
fn lend_decay(tracks: &mut [Track], grid: &Grid) {
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

/// The law that the partials keep best, each by its strength: cents above `law`'s f0, and ln B.
fn law_of(tracks: &[Track], grid: &Grid, law: Law, prior: Prior, length_s: f64) -> (f64, f64) {
    let loudest = tracks.iter().map(|t| t.amp.norm()).fold(0.0, f64::max);
    let (mut x, mut lb) = (0.0, law.b.ln());
    for _ in 0..6 {
        let b = lb.exp();
        let (mut h, mut v) = ([[0.0; 2]; 2], [0.0; 2]);
        for t in tracks.iter() {
            let n2 = (t.n * t.n) as f64;
            let power: f64 = (0..grid.len())
                .map(|k| t.model(grid, k).norm_sqr() / t.noise[k])
                .sum();
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
fn follow_law(tracks: &mut [Track], grid: &Grid, law: Law, prior: Prior, length_s: f64) {
    let (x, lb) = law_of(tracks, grid, law, prior, length_s);
    for t in tracks.iter_mut() {
        let n2 = (t.n * t.n) as f64;
        let hz = t.n as f64 * law.f0_hz * (1.0 + lb.exp() * n2).sqrt() * (x * CENT).exp();
        let power: f64 = (0..grid.len())
            .map(|k| t.model(grid, k).norm_sqr() / t.noise[k])
            .sum();
        let strong = if power > 60.0 { 2.0 } else { 1.0 };
        if (t.now_hz() - hz).abs() > strong * (0.25 / length_s).max(3.0 * CENT * hz) {
            t.shift_hz = hz - t.hz;
            let (mut num, mut den) = (Phasor::default(), 1e-30);
            let s = t.exponent(0.0);
            for (k, c) in t.clean.iter().enumerate() {
                let m = block_sum(s, grid, k);
                num += c * m.conj();
                den += m.norm_sqr();
            }
            t.amp = num / den;
        }
    }
}

fn subtract_neighbours(tracks: &mut [Track], grid: &Grid, f1: f64) {
    let count = tracks.len();
    // far partials of high strings do not reach
    let _ = f1;
    let reach = if count < 12 { count } else { 4 };
    for i in 0..count {
        let mut clean = tracks[i].raw.clone();
        let hz = tracks[i].hz;
        for j in i.saturating_sub(reach)..(i + reach + 1).min(count) {
            if j != i {
                for (k, c) in clean.iter_mut().enumerate() {
                    *c -= tracks[j].leak(hz, grid, k);
                }
            }
            if i + j + 2 <= 5 {
                for (k, c) in clean.iter_mut().enumerate() {
                    *c -= tracks[j].mirror(hz, grid, k);
                }
            }
        }
        tracks[i].clean = clean;
    }
}

/// Noise power of each partial's blocks, from probes between the partials.
fn noise_levels(
    probes: &[f64],
    raw: &[Vec<Phasor>],
    tracks: &[Track],
    grid: &Grid,
    f1: f64,
    attack: bool,
) -> Vec<Vec<f64>> {
    let blocks = grid.len();
    let mut density = vec![vec![0.0; blocks]; probes.len()];
    for (p, hz) in probes.iter().enumerate() {
        for k in 0..blocks {
            let mut c = raw[p][k];
            for t in tracks {
                if (t.hz - hz).abs() < 2.6 * f1.max(100.0) {
                    c -= t.leak(*hz, grid, k);
                }
            }
            density[p][k] = c.norm_sqr() / grid.size(k);
        }
    }
    let early = (0..blocks).filter(|k| grid.middle_s(*k) < 0.09).count();
    let mut out = Vec::with_capacity(tracks.len());
    for t in tracks {
        // probes near this partial
        let mut near: Vec<usize> = (0..probes.len()).collect();
        near.sort_by(|a, b| {
            (probes[*a] - t.hz)
                .abs()
                .total_cmp(&(probes[*b] - t.hz).abs())
        });
        near.truncate(6);
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

/// One Gauss–Newton step of a partial's amplitude, phase, decay and frequency.
fn improve(t: &mut Track, grid: &Grid) {
    let blocks = grid.len();
    let (mut a, mut g) = ([[0.0; 2]; 2], [0.0; 2]);
    let mut r = [0.0; 2];
    for k in 0..blocks {
        let m = t.model(grid, k);
        let size = m.norm();
        if size < 1e-20 {
            continue;
        }
        let e = (t.clean[k] - m) * m.conj() / (size * size);
        let w = size * size / (t.noise[k] + 0.02 * size * size);
        let x = grid.middle_s(k);
        a[0][0] += w;
        a[0][1] += w * x;
        a[1][1] += w * x * x;
        g[0] += w * e.im;
        g[1] += w * x * e.im;
        r[0] += w * e.re;
        r[1] += w * x * e.re;
    }
    // weak priors hold what cannot be measured
    let f_prior = 1.0 / (1.5f64 * std::f64::consts::TAU).powi(2);
    let d_prior = 1.0 / 10.0f64.powi(2);
    let solve = |a11: f64, g0: f64, g1: f64| {
        let det = a[0][0] * a11 - a[0][1] * a[0][1];
        if det <= 0.0 {
            (0.0, 0.0)
        } else {
            (
                (a11 * g0 - a[0][1] * g1) / det,
                (a[0][0] * g1 - a[0][1] * g0) / det,
            )
        }
    };
    let (phase, turn) = solve(a[1][1] + f_prior, g[0], g[1]);
    let (gain, slope) = solve(a[1][1] + d_prior, r[0], r[1]);
    let limit = |x: f64, l: f64| x.clamp(-l, l);
    t.amp *= Phasor::from_polar(limit(gain, 0.7).exp(), limit(phase, 1.0));
    t.decay = (t.decay - limit(slope, 4.0)).clamp(0.02, 80.0);
    t.shift_hz += limit(turn, 4.0) / std::f64::consts::TAU;
}

struct Rotated {
    /// model amplitude per sample, middle of block in seconds
    m: Vec<f64>,
    x: Vec<f64>,
}

fn rotated(t: &Track, grid: &Grid) -> Rotated {
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

/// Seconds to −60 dB of a string of `hz`.
fn ring_time_s(hz: f64) -> f64 {
    let points: [(f64, f64); 5] = [
        (32.7, 10.0),
        (261.6, 8.0),
        (523.0, 5.0),
        (1760.0, 1.1),
        (3136.0, 0.5),
    ];
    if hz <= points[0].0 {
        return points[0].1;
    }
    for w in points.windows(2) {
        if hz <= w[1].0 {
            let t = (hz / w[0].0).ln() / (w[1].0 / w[0].0).ln();
            return (w[0].1.ln() * (1.0 - t) + w[1].1.ln() * t).exp();
        }
    }
    points[4].1
}

/// What the strings an octave, a fifth and a twelfth away put on partial `n`, against the strongest they ring with.
fn echo_share(n: usize) -> f64 {
    let mut sum = 0.0;
    for (up, down) in [(1usize, 2usize), (2, 1), (3, 2), (2, 3), (3, 1)] {
        // their partial m stands where ours stands: m·up/down = n; the lowest such m rings loudest
        if (n * down) % up == 0 {
            let m = n * down / up;
            sum += (down as f64 / m as f64).powi(2);
        }
    }
    sum.sqrt()
}

/// Root mean square of the ringing-along over half a second, against its envelope.
fn echo_norm(ring: f64) -> f64 {
    let part = |r: f64| (1.0 - (-r * 0.5).exp()) / r;
    let (a, b) = (2.0 * ring, 1.0 / 0.12);
    ((part(a) - 2.0 * part(a + b) + part(a + 2.0 * b)) / 0.5)
        .max(1e-9)
        .sqrt()
}

/// Covariance of a partial's relative residual: noise, what beats with it, what rings along with it.
fn covariance(t: &Track, r: &Rotated, grid: &Grid, rho: f64, echo: f64) -> Vec<f64> {
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
            if k == l {
                v += 0.5 * t.noise[k] / (grid.size(k) * grid.size(k) * m[k] * m[k]);
            }
            s[k * blocks + l] = v;
            s[l * blocks + k] = v;
        }
    }
    s
}

/// The ways a partial may beat: amplitude of what beats with it, relative to itself.
const RHOS: [f64; 4] = [0.12, 0.25, 0.4, 0.8];
const RHO_PRIOR: [f64; 4] = [0.3, 0.35, 0.3, 0.05];
const MAIN: usize = 1;

/// One partial seen through one way of beating: the whitener and the whitened columns.
struct Filter {
    factor: Vec<f64>,
    log_det: f64,
    one: Vec<f64>,
    line: Vec<f64>,
    /// per glide
    bends: Vec<Vec<f64>>,
}

/// One partial, ready to be asked about frequency and glide.
struct Voice {
    n: f64,
    hz: f64,
    /// blocks over model amplitude
    rel: Vec<Phasor>,
    x: Vec<f64>,
    filters: Vec<(f64, Filter)>,
}

/// Quadratic evidence about steps of (frequency in cents, glide in cents): [uu, ug, gg, bu, bg, qq]; log weight; step of decay, gain.
struct Quad {
    q: [f64; 6],
    log: f64,
    slope: f64,
    gain: f64,
    phase: f64,
}

impl Voice {
    fn new(
        t: &Track,
        grid: &Grid,
        rhos: &[f64],
        prior: &[f64],
        echo: f64,
        taus: &[f64],
    ) -> Option<Voice> {
        let blocks = grid.len();
        let r = rotated(t, grid);
        let rel = (0..blocks)
            .map(|k| t.clean[k] / (grid.size(k) * r.m[k]))
            .collect();
        let mut filters = vec![];
        for (rho, p) in rhos.iter().zip(prior) {
            let mut factor = covariance(t, &r, grid, *rho, echo);
            let log_det = cholesky(&mut factor, blocks)?;
            let white = |mut c: Vec<f64>| {
                forward(&factor, blocks, &mut c);
                c
            };
            let one = white(vec![1.0; blocks]);
            let line = white(r.x.clone());
            let bends = taus
                .iter()
                .map(|tau| white(r.x.iter().map(|t| tau * (1.0 - (-t / tau).exp())).collect()))
                .collect();
            filters.push((
                p.ln(),
                Filter {
                    factor,
                    log_det,
                    one,
                    line,
                    bends,
                },
            ));
        }
        Some(Voice {
            n: t.n as f64,
            hz: t.hz,
            rel,
            x: r.x,
            filters,
        })
    }

    /// Evidence about small steps from a frequency and a glide.
    fn ask(&self, way: usize, tau: usize, tau_s: f64, hz: f64, glide: f64) -> Quad {
        let (log_prior, f) = &self.filters[way];
        let blocks = self.x.len();
        let (mut re, mut im) = (vec![0.0; blocks], vec![0.0; blocks]);
        let turn = std::f64::consts::TAU;
        for k in 0..blocks {
            let x = self.x[k];
            let phase = turn
                * ((hz - self.hz) * x + hz * CENT * glide * tau_s * (1.0 - (-x / tau_s).exp()));
            let z = self.rel[k] * Phasor::from_polar(1.0, -phase);
            re[k] = z.re;
            im[k] = z.im;
        }
        forward(&f.factor, blocks, &mut re);
        forward(&f.factor, blocks, &mut im);
        let one = dot(&f.one, &f.one);
        let a = Phasor::new(dot(&f.one, &re), dot(&f.one, &im)) / one;
        let gain = a.norm().max(1e-9);
        let (c, s) = (a.re / gain, a.im / gain);
        let p: Vec<f64> = re.iter().zip(&im).map(|(r, i)| r * c + i * s).collect();
        let q: Vec<f64> = re.iter().zip(&im).map(|(r, i)| i * c - r * s).collect();
        let ol = dot(&f.one, &f.line);
        let ll = dot(&f.line, &f.line);
        // in phase
        let (g0, g1) = (dot(&f.one, &p), dot(&f.line, &p));
        let c2 = ll + 0.01;
        let det = one * c2 - ol * ol;
        let (k0, k1) = ((c2 * g0 - ol * g1) / det, (one * g1 - ol * g0) / det);
        let left = dot(&p, &p) - k0 * g0 - k1 * g1;
        // quadrature
        let unit = turn * hz * CENT * gain;
        let bend = &f.bends[tau];
        let (ob, lb, bb) = (dot(&f.one, bend), dot(&f.line, bend), dot(bend, bend));
        let (oq, lq, bq, qq) = (
            dot(&f.one, &q),
            dot(&f.line, &q),
            dot(bend, &q),
            dot(&q, &q),
        );
        let quad = [
            unit * unit * (ll - ol * ol / one),
            unit * unit * (lb - ol * ob / one),
            unit * unit * (bb - ob * ob / one),
            unit * (lq - ol * oq / one),
            unit * (bq - ob * oq / one),
            qq - oq * oq / one,
        ];
        Quad {
            q: quad,
            log: log_prior - 0.5 * left - f.log_det - 0.5 * det.ln() - 0.5 * one.ln(),
            slope: k1 / gain,
            gain,
            phase: a.arg(),
        }
    }
}

fn combine(tracks: &[Track], grid: &Grid, law: Law, prior: Prior, attack: bool) -> Option<Fit> {
    let reference = law.f0_hz;
    // beyond a run of partials that cannot be told from noise, what looks like one is noise
    let mut last = 0;
    for t in tracks {
        // the lowest partials of the lowest strings hardly reach a microphone
        if t.n > if last == 0 { 14 } else { last + 5 } {
            break;
        }
        if t.strength(grid) > PRESENT {
            last = t.n;
        }
    }
    let usable: Vec<&Track> = tracks
        .iter()
        .filter(|t| t.n <= last && t.strength(grid) > PRESENT)
        .collect();
    if usable.is_empty() {
        return None;
    }
    let level = usable
        .iter()
        .map(|t| t.amp.norm_sqr() * (1.0 - (-t.decay).exp()) / t.decay)
        .sum::<f64>()
        .sqrt();
    let w: Vec<Weight> = tracks.iter().take(8).map(|t| t.weight(grid)).collect();
    let mut parts = vec![];
    if std::env::var("DBG").is_ok() {
        for t in tracks {
            eprintln!(
                "n {} hz {:.3} perc {:.3} d {:.2} strength {:.1} amp {:.2e} noise {:.2e}",
                t.n,
                t.now_hz(),
                (t.now_hz() / t.n as f64 / reference).ln() / CENT
                    - 0.5 / CENT * (law.b * (t.n * t.n) as f64).ln_1p(),
                t.decay,
                t.strength(grid),
                t.amp.norm(),
                t.noise[grid.len() / 2] / grid.size(grid.len() / 2)
            );
        }
    }
    let heard: Vec<Track> = usable.iter().map(|t| (*t).clone()).collect();
    let length_s = grid.edges[grid.len()] as f64 / grid.rate_hz;
    let start = law_of(&heard, grid, law, prior, length_s);
    // the partials' own frequencies hold the mean of the glide
    let from = |tau: usize, share: f64| {
        let g = share * prior.glide_cents;
        let mean = TAUS[tau] * (1.0 - (-length_s / TAUS[tau]).exp()) / length_s;
        (start.0 - g * mean, start.1, g)
    };
    if !attack {
        let mut own: Vec<Track> = tracks.to_vec();
        let mut part = None;
        for round in 0..3 {
            let voices: Vec<Voice> = own
                .iter()
                .filter(|t| t.n <= last + 2 && t.strength(grid) > PRESENT)
                .filter_map(|t| Voice::new(t, grid, &[0.0], &[1.0], 0.0, &TAUS[..1]))
                .collect();
            part = solve(&voices, law, prior, 0, (start.0, start.1, 0.0), true, &w);
            let Some(p) = &part else { break };
            if round == 2 {
                break;
            }
            for t in &mut own {
                let n = t.n as f64;
                let hz = n * reference * (1.0 + p.ln_b.exp() * n * n).sqrt() * (p.f0 * CENT).exp();
                let Some(v) = Voice::new(t, grid, &[0.0], &[1.0], 0.0, &TAUS[..1]) else {
                    continue;
                };
                let a = v.ask(0, 0, TAUS[0], hz, 0.0);
                t.amp = Phasor::from_polar(t.amp.norm() * a.gain, a.phase);
                t.decay = (t.decay - a.slope.clamp(-3.0, 3.0)).clamp(0.02, 80.0);
                t.shift_hz = hz - t.hz;
            }
            subtract_neighbours(&mut own, grid, law.partial(1));
        }
        parts.extend(part.map(|p| Part {
            log_z: p.log_z + 25.0,
            ..p
        }));
    }
    let mut tracks: Vec<Track> = usable.iter().map(|t| (*t).clone()).collect();
    let make = |tracks: &[Track]| -> Vec<Voice> {
        tracks
            .iter()
            .filter_map(|t| Voice::new(t, grid, &RHOS, &RHO_PRIOR, 0.0316 * level, &TAUS))
            .collect()
    };
    let mut real = make(&tracks);
    for _ in 0..2 {
        let p = solve(&real, law, prior, 1, from(1, 0.4), false, &w)?;
        for (t, v) in tracks.iter_mut().zip(&real) {
            let hz =
                v.n * reference * (1.0 + p.ln_b.exp() * v.n * v.n).sqrt() * (p.f0 * CENT).exp();
            let a = v.ask(MAIN, 1, TAUS[1], hz, p.glide);
            t.amp *= a.gain.clamp(0.5, 2.0);
            t.decay = (t.decay - a.slope.clamp(-2.0, 2.0)).clamp(0.02, 80.0);
        }
        real = make(&tracks);
    }
    for tau in 0..TAUS.len() {
        let mut found: Vec<Part> = vec![];
        for share in [0.1, 0.4, 0.8] {
            if let Some(p) = solve(&real, law, prior, tau, from(tau, share), false, &w) {
                if found
                    .iter()
                    .all(|q| (q.log_z - p.log_z).abs() > 0.05 || (q.f1.0 - p.f1.0).abs() > 0.02)
                {
                    found.push(p);
                }
            }
        }
        parts.extend(found);
    }
    if std::env::var("DBG").is_ok() {
        for p in &parts {
            eprintln!(
                "part plain {} logz {:.2} g {:.2} f1 {:.3} sd {:.3}",
                p.plain,
                p.log_z,
                p.glide,
                p.f1.0,
                p.f1.1.sqrt()
            );
        }
    }
    finish(&parts, reference, &tracks)
}

struct Part {
    log_z: f64,
    plain: bool,
    glide: f64,
    f1: (f64, f64),
    heard: (f64, f64),
    f0: f64,
    ln_b: f64,
}

fn solve(
    voices: &[Voice],
    law: Law,
    prior: Prior,
    tau: usize,
    start: (f64, f64, f64),
    plain: bool,
    w: &[Weight],
) -> Option<Part> {
    let (mut x, mut lb, mut g) = start;
    let most = prior.glide_cents * 1.15;
    let mut h = [[0.0f64; 3]; 3];
    let mut log_z = 0.0;
    let mut tail = (0.0, 0.0); // variance of the glide, slope
    for round in 0..7 {
        let b = lb.exp();
        h = [[0.0; 3]; 3];
        let mut v = [0.0f64; 3];
        log_z = 0.0;
        for voice in voices {
            let n2 = voice.n * voice.n;
            let bend = 0.5 / CENT * b * n2 / (1.0 + b * n2);
            let hz = voice.n * law.f0_hz * (1.0 + b * n2).sqrt() * (x * CENT).exp();
            let quads: Vec<Quad> = (0..voice.filters.len())
                .map(|way| voice.ask(way, tau, TAUS[tau], hz, g))
                .collect();
            let logs: Vec<f64> = quads.iter().map(|q| q.log - 0.5 * q.q[5]).collect();
            if std::env::var("DBG").is_ok() && round == 6 && tau < 2 {
                eprintln!(
                    "  n {} plain {} logs {:.1?} qq {:.1?} gain {:.3}",
                    voice.n,
                    plain,
                    logs,
                    quads.iter().map(|q| q.q[5]).collect::<Vec<_>>(),
                    quads[0].gain
                );
            }
            let top = logs.iter().fold(f64::MIN, |m, l| m.max(*l));
            let sum: f64 = logs.iter().map(|l| (l - top).exp()).sum();
            log_z += top + sum.ln();
            let (mut uu, mut ug, mut gg, mut su, mut sg) = (0.0, 0.0, 0.0, 0.0, 0.0);
            let (mut su2, mut sug, mut sg2) = (0.0, 0.0, 0.0);
            for (q, l) in quads.iter().zip(&logs) {
                let w = (l - top).exp() / sum;
                let q = q.q;
                let (du, dg) = (q[3], q[4]);
                uu += w * q[0];
                ug += w * q[1];
                gg += w * q[2];
                su += w * du;
                sg += w * dg;
                su2 += w * du * du;
                sug += w * du * dg;
                sg2 += w * dg * dg;
            }
            if round == 6 {
                // what the ways of beating disagree on is not known
                let (cu, cug, cg) = (su2 - su * su, sug - su * sg, sg2 - sg * sg);
                let keep = (0.6 * uu / cu.max(1e-12))
                    .min(0.6 * gg / cg.max(1e-12))
                    .min(1.0);
                uu -= keep * cu;
                ug -= keep * cug;
                gg -= keep * cg;
            }
            let t = [1.0, bend];
            for i in 0..2 {
                for j in 0..2 {
                    h[i][j] += uu * t[i] * t[j];
                }
                h[i][2] += ug * t[i];
                h[2][i] += ug * t[i];
                v[i] += su * t[i];
            }
            h[2][2] += gg;
            v[2] += sg;
        }
        let pb = 1.0 / (prior.b_spread * prior.b_spread);
        h[1][1] += pb;
        let off = prior.b.ln() - lb;
        v[1] += pb * off;
        log_z -= 0.5 * pb * off * off;
        let det = h[0][0] * h[1][1] - h[0][1] * h[0][1];
        if det <= 0.0 || !det.is_finite() {
            return None;
        }
        // (x, ln B) given the glide: minus this times the step of the glide
        let kx = (h[1][1] * h[0][2] - h[0][1] * h[1][2]) / det;
        let kl = (h[0][0] * h[1][2] - h[0][1] * h[0][2]) / det;
        let dx0 = (h[1][1] * v[0] - h[0][1] * v[1]) / det;
        let dl0 = (h[0][0] * v[1] - h[0][1] * v[0]) / det;
        let mut dg = 0.0;
        let gain = 0.5 * (v[0] * dx0 + v[1] * dl0);
        log_z += gain - 0.5 * det.ln();
        if !plain {
            let info = (h[2][2] - h[0][2] * kx - h[1][2] * kl).max(1e-9);
            let score = v[2] - h[0][2] * dx0 - h[1][2] * dl0;
            let sd = info.sqrt().recip();
            let free = g + score / info;
            let (mean, var, mass) = between(free, sd, 0.0, most);
            log_z += 0.5 * score * score / info + (sd / most).ln() + mass.ln()
                - (TAUS.len() as f64).ln();
            dg = mean - g;
            tail = (var, kx);
            let _ = tail;
            h[2][2] = var; // kept for the end
        }
        x += dx0 - kx * dg;
        lb += (dl0 - kl * dg).clamp(-0.7, 0.7);
        g += dg;
        if round == 6 {
            h[2][0] = kx;
            h[2][1] = kl;
        }
    }
    let det = h[0][0] * h[1][1] - h[0][1] * h[0][1];
    let cov = [h[1][1] / det, -h[0][1] / det, h[0][0] / det];
    let (kx, kl, vg) = (h[2][0], h[2][1], if plain { 0.0 } else { h[2][2] });
    let b = lb.exp();
    let at = |n: f64| 0.5 / CENT * (b * n * n).ln_1p();
    let slope = |n: f64| 0.5 / CENT * b * n * n / (1.0 + b * n * n);
    let total: f64 = w.iter().map(|x| x.size).sum();
    let bent = w.iter().map(|w| w.size * at(w.n)).sum::<f64>() / total;
    let heard = x + bent;
    let sh = w.iter().map(|w| w.size * slope(w.n)).sum::<f64>() / total;
    let unsure: f64 = w
        .iter()
        .map(|w| (w.size / total * (at(w.n) - bent)).powi(2) * w.doubt)
        .sum();
    let var = |s: f64| cov[0] + 2.0 * s * cov[1] + s * s * cov[2] + (kx + s * kl).powi(2) * vg;
    Some(Part {
        log_z,
        plain,
        glide: g,
        f1: (x + at(1.0), var(slope(1.0))),
        heard: (heard, var(sh) + unsure),
        f0: x,
        ln_b: lb,
    })
}

/// Mean, variance and mass of a normal law between two limits.
fn between(mean: f64, sd: f64, low: f64, high: f64) -> (f64, f64, f64) {
    // 64 points: the law may be narrow or wide
    let (a, b) = (low.max(mean - 6.0 * sd), high.min(mean + 6.0 * sd));
    if a >= b {
        let at = if mean < low { low } else { high };
        let slack = sd * sd / (mean - at).abs().max(sd);
        return (
            at + if mean < low { slack } else { -slack },
            slack * slack,
            1e-9 * (-0.5 * ((mean - at) / sd).powi(2).min(60.0)).exp(),
        );
    }
    let (mut m0, mut m1, mut m2) = (0.0, 0.0, 0.0);
    for i in 0..64 {
        let g = a + (b - a) * (f64::from(i) + 0.5) / 64.0;
        let z = (g - mean) / sd;
        let p = (-0.5 * z * z).exp();
        m0 += p;
        m1 += p * g;
        m2 += p * g * g;
    }
    let m = m1 / m0;
    (m, (m2 / m0 - m * m).max(1e-12), m0 * (b - a) / 64.0 / sd)
}

fn finish(parts: &[Part], reference: f64, tracks: &[Track]) -> Option<Fit> {
    let top = parts.iter().fold(f64::MIN, |m, p| m.max(p.log_z));
    let z: f64 = parts.iter().map(|p| (p.log_z - top).exp()).sum();
    if !z.is_finite() || z <= 0.0 {
        return None;
    }
    let mean = |f: &dyn Fn(&Part) -> f64| {
        parts
            .iter()
            .map(|p| (p.log_z - top).exp() * f(p))
            .sum::<f64>()
            / z
    };
    let f1 = mean(&|p| p.f1.0);
    let f1_var = mean(&|p| p.f1.1 + (p.f1.0 - f1).powi(2));
    let heard = mean(&|p| p.heard.0);
    let heard_var = mean(&|p| p.heard.1 + (p.heard.0 - heard).powi(2));
    let plain = mean(&|p| f64::from(u8::from(p.plain)));
    Some(Fit {
        f1_hz: reference * (f1 * CENT).exp(),
        f1_sd: f1_var.sqrt(),
        heard_hz: reference * (heard * CENT).exp(),
        heard_sd: heard_var.sqrt(),
        law: Law {
            f0_hz: reference * (mean(&|p| p.f0) * CENT).exp(),
            b: mean(&|p| p.ln_b).exp(),
        },
        glide_cents: mean(&|p| p.glide),
        plain,
        partials: tracks
            .iter()
            .map(|t| FitPartial {
                n: t.n,
                hz: t.now_hz(),
                sd_cents: 1.0,
            })
            .collect(),
        debug: vec![],
    })
}
