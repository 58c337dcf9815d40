//! One partial as it rings, followed through blocks of sound.

use crate::blocks::{Grid, Phasor, demodulate};
use crate::cent::CENT;
use crate::leak::{Ring, Turn};

/// One partial as it rings: amplitude at the onset, decay per second, distance from its reference frequency.
#[derive(Clone, Debug)]
pub(crate) struct Track {
    pub(crate) n: usize,
    pub(crate) hz: f64,
    pub(crate) shift_hz: f64,
    pub(crate) amp: Phasor,
    pub(crate) decay: f64,
    pub(crate) raw: Vec<Phasor>,
    pub(crate) clean: Vec<Phasor>,
    pub(crate) noise: Vec<f64>,
    /// amplitude of what sounded here before the onset
    pub(crate) stood: f64,
}

/// What a partial counts for in the sounding pitch: n² × its energy from 50 to 500 ms.
pub(crate) struct Weight {
    pub(crate) n: f64,
    pub(crate) size: f64,
    /// relative variance of the size by noise
    pub(crate) doubt: f64,
    /// the same where the partial does not ring down evenly
    pub(crate) fault: f64,
}

impl Track {
    pub(crate) fn exponent(&self) -> Phasor {
        Phasor::new(-self.decay, std::f64::consts::TAU * self.shift_hz)
    }
    /// What each block holds of the partial.
    pub(crate) fn model(&self, grid: &Grid) -> Vec<Phasor> {
        let sums = block_sums(self.exponent(), grid);
        sums.into_iter().map(|sum| self.amp * sum).collect()
    }
    pub(crate) fn strength(&self, grid: &Grid) -> f64 {
        let model = self.model(grid);
        let powers = model.iter().zip(&self.noise);
        powers.map(|(m, noise)| m.norm_sqr() / noise).sum()
    }
    pub(crate) fn now_hz(&self) -> f64 {
        self.hz + self.shift_hz
    }
}

/// When the glide counts as dead, seconds, where there is as much again to listen to.
const DEAD_S: f64 = 0.15;
/// How far from the law a partial is looked for, cents.
const REACH: f64 = 12.0;

impl Track {
    /// Where the partial stands once the glide has died, plainly: the frequency, Hz from its reference and not far from `about`,
    /// that turns what is left after `DEAD_S` to its largest sum under a Hann window.
    pub(crate) fn late_shift_hz(&self, grid: &Grid, about: f64) -> f64 {
        let end_s = grid.length_s();
        let from_s = DEAD_S.min(0.3 * end_s);
        let span_s = end_s - from_s;
        let shaped: Vec<(f64, Phasor)> = (0..grid.len())
            .map(|k| (grid.middle_s(k), self.clean[k]))
            .filter(|(t, _)| *t > from_s)
            .map(|(t, c)| {
                let part = (t - from_s) / span_s;
                (t, c * (std::f64::consts::PI * part).sin().powi(2))
            })
            .collect();
        let power = |shift: f64| {
            let turned = |(t, c): &(f64, Phasor)| {
                c * Phasor::from_polar(1.0, -std::f64::consts::TAU * shift * t)
            };
            shaped.iter().map(turned).sum::<Phasor>().norm_sqr()
        };
        let mut best = about;
        let mut step = 0.2 / span_s;
        // the law is kept to some cents; a short sound cannot tell so little
        let reach = (REACH * CENT * self.hz).max(0.6 / span_s);
        let mut half = (reach / step).ceil().min(8.0) as i32;
        for _ in 0..5 {
            let tried = (-half..=half).map(|i| best + f64::from(i) * step);
            best = tried
                .map(|shift| (power(shift), shift))
                .fold((0.0, best), |m, p| if p.0 > m.0 { p } else { m })
                .1;
            step *= 0.2;
            half = 5;
        }
        best
    }

    pub(crate) fn weight(&self, grid: &Grid) -> Weight {
        let (mut energy, mut noise, mut seen) = (0.0, 0.0, 0.0);
        for (k, block) in self.model(grid).into_iter().enumerate() {
            let (from, to) = (
                grid.edges[k] as f64 / grid.rate_hz,
                grid.edges[k + 1] as f64 / grid.rate_hz,
            );
            let share = ((to.min(0.5) - from.max(0.05)) / (to - from)).clamp(0.0, 1.0);
            let size = grid.size(k);
            // a partial that left its reference frequency is less than itself in long blocks
            let whole =
                self.amp.norm_sqr() * (-2.0 * self.decay * grid.middle_s(k)).exp() * size * size;
            let thinned = (whole / block.norm_sqr().max(1e-30)).clamp(0.5, 4.0);
            energy += share * thinned * (self.clean[k].norm_sqr() - self.noise[k]) / size;
            noise += share * self.clean[k].norm_sqr() * self.noise[k] / (size * size);
            seen += share * (-2.0 * self.decay * grid.middle_s(k)).exp() * (to - from);
        }
        let model: f64 = (0..grid.len())
            .map(|k| {
                let (from, to) = (
                    grid.edges[k] as f64 / grid.rate_hz,
                    grid.edges[k + 1] as f64 / grid.rate_hz,
                );
                let share = ((to.min(0.5) - from.max(0.05)) / (to - from)).clamp(0.0, 1.0);
                share
                    * self.amp.norm_sqr()
                    * (-2.0 * self.decay * grid.middle_s(k)).exp()
                    * grid.size(k)
            })
            .sum();
        let d = (2.0 * self.decay).max(1e-3);
        let whole = ((-d * 0.05).exp() - (-d * 0.5).exp()) / d;
        let stretch = (whole / seen.max(1e-9)).clamp(1.0, 50.0);
        let energy = energy.max(1e-12);
        let n = self.n as f64;
        Weight {
            n,
            size: n * n * energy * stretch,
            doubt: (2.0 * noise / (energy * energy)).min(1.0),
            fault: (0.03 * (1.0 - 1.0 / stretch)
                + 0.6 * ((energy - model) / energy.max(model)).powi(2))
            .min(1.0),
        }
    }
}

pub(crate) fn start_track(n: usize, hz: f64, raw: Vec<Phasor>, grid: &Grid) -> Track {
    let length_s = grid.length_s();
    // strongest of a few frequencies near the reference
    let mut best = (0.0, 0.0);
    let reach = (0.7 / length_s).max(hz * 1.5 * CENT);
    let steps = (reach * length_s * 5.0).ceil() as i32;
    let shift = |i: i32| reach * f64::from(i) / f64::from(steps);
    let turn = |shift: f64, k: usize| {
        Phasor::from_polar(1.0, -std::f64::consts::TAU * shift * grid.middle_s(k))
    };
    // each further frequency turns every block on by as much again
    let mut turned: Vec<Phasor> = (0..grid.len())
        .map(|k| raw[k] * turn(shift(-steps), k))
        .collect();
    let further: Vec<Phasor> = (0..grid.len())
        .map(|k| turn(reach / f64::from(steps), k))
        .collect();
    for i in -steps..=steps {
        let power = turned.iter().sum::<Phasor>().norm_sqr();
        if power > best.0 {
            best = (power, shift(i));
        }
        for (c, on) in turned.iter_mut().zip(&further) {
            *c *= on;
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
    for (c, m) in raw.iter().zip(block_sums(s, grid)) {
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
        stood: 0.0,
    }
}

/// Takes from every partial's blocks what all the others left in them.
pub(crate) fn subtract_others(tracks: &mut [Track], grid: &Grid) {
    let rings: Vec<Ring> = tracks.iter().map(|t| Ring::of(t, grid)).collect();
    for (i, t) in tracks.iter_mut().enumerate() {
        t.clean.clone_from(&t.raw);
        let turn = Turn::of(t.hz, grid);
        for (j, ring) in rings.iter().enumerate() {
            if j != i {
                ring.take_off(&turn, &mut t.clean);
            }
        }
    }
}

/// Finds what sounded at the partials' frequencies before the onset, the noise taken off.
pub(crate) fn look_back(tracks: &mut [Track], before: &[f32], grid: &Grid) {
    if before.is_empty() {
        return;
    }
    let whole = Grid {
        edges: vec![0, before.len()],
        rate_hz: grid.rate_hz,
    };
    let hz: Vec<f64> = tracks.iter().map(Track::now_hz).collect();
    let size = whole.size(0);
    let last = grid.len() - 1;
    for (t, sums) in tracks.iter_mut().zip(demodulate(before, &hz, &whole)) {
        let noise = t.noise[last] / grid.size(last) / size;
        t.stood = ((sums[0] / size).norm_sqr() - noise).max(0.0).sqrt();
    }
}

/// One Gauss–Newton step of a partial's amplitude, phase, decay and frequency.
pub(crate) fn improve(t: &mut Track, grid: &Grid) {
    let (mut a, mut g) = ([[0.0; 2]; 2], [0.0; 2]);
    let mut r = [0.0; 2];
    for (k, m) in t.model(grid).into_iter().enumerate() {
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

/// Σ e^(s·t) over the samples of each block, t from the onset.
pub(crate) fn block_sums(s: Phasor, grid: &Grid) -> Vec<Phasor> {
    let step = s / grid.rate_hz;
    let one = (step * 0.5).sinh();
    // most blocks have one of a few sizes
    let mut shape_of = (f64::NAN, Phasor::default());
    let mut sum = |k: usize| {
        let size = grid.size(k);
        if size != shape_of.0 {
            let half = step * (size / 2.0);
            let shape = if half.norm_sqr() < 1e-4 {
                Phasor::new(size, 0.0) * (1.0 + half * half / 6.0)
            } else {
                half.sinh() / one
            };
            shape_of = (size, shape);
        }
        (s * grid.middle_s(k)).exp() * shape_of.1
    };
    (0..grid.len()).map(&mut sum).collect()
}
