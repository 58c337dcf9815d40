//! One partial, ready to be asked how well a frequency and a glide suit it.

use crate::beating::{Covariance, rotated};
use crate::blocks::{Grid, Phasor};
use crate::cent::CENT;
use crate::small::{cholesky, dot, forward, forward_two};
use crate::track::Track;

/// Misfit over degrees of freedom that noise alone may give.
const MISFIT: f64 = 1.1;

/// One partial seen through one way of beating: the whitener and the whitened columns.
pub(crate) struct Filter {
    pub(crate) factor: Vec<f64>,
    pub(crate) log_det: f64,
    pub(crate) one: Vec<f64>,
    pub(crate) line: Vec<f64>,
    /// per glide
    pub(crate) bends: Vec<Vec<f64>>,
}

/// One partial, ready to be asked about frequency and glide.
pub(crate) struct Voice {
    pub(crate) n: f64,
    pub(crate) hz: f64,
    /// blocks over model amplitude
    pub(crate) rel: Vec<Phasor>,
    pub(crate) x: Vec<f64>,
    pub(crate) taus: Vec<f64>,
    pub(crate) filters: Vec<(f64, Filter)>,
}

/// Quadratic evidence about steps of (frequency in cents, glide in cents): [uu, ug, gg, bu, bg, qq]; log weight; step of decay, gain.
pub(crate) struct Quad {
    pub(crate) q: [f64; 6],
    pub(crate) log: f64,
    /// Misfit in phase with the partial.
    pub(crate) left: f64,
    pub(crate) slope: f64,
    pub(crate) gain: f64,
    pub(crate) phase: f64,
}

/// First and second derivatives of a partial's log likelihood at a frequency and a glide, over the ways it may beat.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Moments {
    pub(crate) uu: f64,
    pub(crate) ug: f64,
    pub(crate) gg: f64,
    pub(crate) su: f64,
    pub(crate) sg: f64,
    pub(crate) log: f64,
}

impl Voice {
    /// Moments at `hz` and a glide of time constant `tau` (none: no glide). At the `last` step, what the ways of beating
    /// disagree on counts as not known.
    pub(crate) fn moments(&self, tau: Option<usize>, hz: f64, glide: f64, last: bool) -> Moments {
        let tau = tau.unwrap_or(0);
        let turned = self.turned(tau, hz, glide);
        let quads: Vec<Quad> = (0..self.filters.len())
            .map(|way| self.quad(way, tau, hz, turned.clone()))
            .collect();
        let logs: Vec<f64> = quads.iter().map(|q| q.log - 0.5 * q.q[5]).collect();
        let top = logs.iter().fold(f64::MIN, |m, l| m.max(*l));
        // what no way of beating explains is something else that sounds there: it makes all of this partial less sure
        let least = quads.iter().fold(f64::MAX, |m, q| m.min(q.left + q.q[5]));
        let freedom = 2.0 * self.x.len() as f64 - 3.0;
        let excess = (least / freedom / MISFIT).max(1.0);
        let sum: f64 = logs.iter().map(|l| (l - top).exp()).sum();
        let mut m = Moments {
            log: top + sum.ln(),
            ..Moments::default()
        };
        let mut square = [0.0; 3];
        for (q, l) in quads.iter().zip(&logs) {
            let w = (l - top).exp() / sum;
            let [uu, ug, gg, su, sg, _] = q.q.map(|x| x / excess);
            m.uu += w * uu;
            m.ug += w * ug;
            m.gg += w * gg;
            m.su += w * su;
            m.sg += w * sg;
            square[0] += w * su * su;
            square[1] += w * su * sg;
            square[2] += w * sg * sg;
        }
        if last {
            let spread = [
                square[0] - m.su * m.su,
                square[1] - m.su * m.sg,
                square[2] - m.sg * m.sg,
            ];
            let keep = (0.6 * m.uu / spread[0].max(1e-12))
                .min(0.6 * m.gg / spread[2].max(1e-12))
                .min(1.0);
            m.uu -= keep * spread[0];
            m.ug -= keep * spread[1];
            m.gg -= keep * spread[2];
        }
        m
    }

    pub(crate) fn new(
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
        let covariance = Covariance::of(t, &r, grid, echo);
        let mut filters = vec![];
        for (rho, p) in rhos.iter().zip(prior) {
            let mut factor = covariance.beaten(*rho);
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
            taus: taus.to_vec(),
            filters,
        })
    }

    /// Evidence about small steps from a frequency and a glide.
    pub(crate) fn ask(&self, way: usize, tau: usize, hz: f64, glide: f64) -> Quad {
        self.quad(way, tau, hz, self.turned(tau, hz, glide))
    }

    /// The blocks turned back by a frequency and a glide: the same for every way of beating.
    fn turned(&self, tau: usize, hz: f64, glide: f64) -> (Vec<f64>, Vec<f64>) {
        let tau_s = self.taus[tau];
        let turn = std::f64::consts::TAU;
        let bend = hz * CENT * glide * tau_s;
        let turned = |(x, rel): (&f64, &Phasor)| {
            let bent = if bend == 0.0 {
                0.0
            } else {
                bend * (1.0 - (-x / tau_s).exp())
            };
            let phase = turn * ((hz - self.hz) * x + bent);
            let z = rel * Phasor::from_polar(1.0, -phase);
            (z.re, z.im)
        };
        self.x.iter().zip(&self.rel).map(turned).unzip()
    }

    fn quad(&self, way: usize, tau: usize, hz: f64, turned: (Vec<f64>, Vec<f64>)) -> Quad {
        let (log_prior, f) = &self.filters[way];
        let blocks = self.x.len();
        let (mut re, mut im) = turned;
        let turn = std::f64::consts::TAU;
        forward_two(&f.factor, blocks, &mut re, &mut im);
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
        // a faint partial's amplitude holds some of the noise
        let strength = gain * gain * one;
        let sure = strength / (1.0 + strength);
        let bend = &f.bends[tau];
        let (ob, lb, bb) = (dot(&f.one, bend), dot(&f.line, bend), dot(bend, bend));
        let (oq, lq, bq, qq) = (
            dot(&f.one, &q),
            dot(&f.line, &q),
            dot(bend, &q),
            dot(&q, &q),
        );
        let quad = [
            sure * unit * unit * (ll - ol * ol / one),
            sure * unit * unit * (lb - ol * ob / one),
            sure * unit * unit * (bb - ob * ob / one),
            sure * unit * (lq - ol * oq / one),
            sure * unit * (bq - ob * oq / one),
            qq - oq * oq / one,
        ];
        Quad {
            q: quad,
            log: log_prior - 0.5 * left - f.log_det - 0.5 * det.ln() - 0.5 * one.ln(),
            left,
            slope: k1 / gain,
            gain,
            phase: a.arg(),
        }
    }
}
