//! All partials together: the law, the glide and each partial's departure from the law, by iterated least squares.
//!
//! Each partial gives a quadratic in (frequency, glide), whitened for noise, beating and what rings along; the ways it may
//! beat are weighed by their evidence at every step. A partial may leave the law by a normal departure of given spread;
//! the departure is integrated out for the law and kept for the partial.

use crate::cent::CENT;
use crate::prior::Prior;
use crate::track::Weight;
use crate::voice::{Moments, Voice};

/// Most steps; the last also finds the uncertainty.
const STEPS: usize = 8;

/// What is left of the doubt about uneven ringing where the string is without fault.
const EVEN: f64 = 0.06;

/// Where the steps begin, and where they end.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stand {
    /// f0, cents above the reference.
    pub(crate) x: f64,
    /// ln B.
    pub(crate) ln_b: f64,
    /// Glide at the start of the blocks, cents.
    pub(crate) glide: f64,
}

/// What is asked of the partials.
pub(crate) struct Question<'a> {
    pub(crate) voices: &'a [Voice],
    pub(crate) reference_hz: f64,
    pub(crate) prior: Prior,
    /// The glide's time constant among the voices'; `None` without a glide.
    pub(crate) tau: Option<usize>,
    /// Spread of the partials' departures from the law, cents.
    pub(crate) off_law: f64,
    /// What the first eight partials count for in the sounding pitch.
    pub(crate) weights: &'a [Weight],
}

/// One partial by itself, the glide taken off.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Own {
    pub(crate) n: f64,
    pub(crate) cents: f64,
    pub(crate) var: f64,
}

/// The answer, cents above the reference.
#[derive(Clone, Debug)]
pub(crate) struct Answer {
    pub(crate) log_z: f64,
    pub(crate) plain: bool,
    pub(crate) off_law: f64,
    pub(crate) stand: Stand,
    /// First partial of the law: mean, variance.
    pub(crate) f1: (f64, f64),
    /// Sounding pitch: mean, variance.
    pub(crate) heard: (f64, f64),
    pub(crate) own: Vec<Own>,
}

/// Normal equations of (x, ln B, glide).
#[derive(Default)]
struct Sums {
    h: [[f64; 3]; 3],
    v: [f64; 3],
    log_z: f64,
}

/// A step of (x, ln B, glide) with what it leaves unknown.
struct Step {
    by: [f64; 3],
    /// covariance of (x, ln B) at a given glide
    cov: [f64; 3],
    /// how (x, ln B) follow the glide
    follow: [f64; 2],
    glide_var: f64,
    log_z: f64,
}

/// A partial's part in a step.
struct Share {
    n: f64,
    bend: f64,
    m: Moments,
    d: f64,
}

impl Question<'_> {
    /// Steps from `start` until nothing moves. `None` where the partials leave the law undetermined.
    pub(crate) fn answer(&self, start: Stand) -> Option<Answer> {
        let mut at = start;
        let mut off = vec![0.0; self.voices.len()];
        for step in 0..STEPS {
            let shares = self.shares(at, &off, false);
            let s = self.step(&self.sums(at, &off, &shares), at)?;
            self.move_on(&mut at, &mut off, &shares, &s);
            if step > 1 && s.by[0].abs() < 0.004 && s.by[2].abs() < 0.01 && s.by[1].abs() < 0.002 {
                break;
            }
        }
        let shares = self.shares(at, &off, true);
        let s = self.step(&self.sums(at, &off, &shares), at)?;
        let before = off.clone();
        self.move_on(&mut at, &mut off, &shares, &s);
        Some(self.concluded(at, &before, &off, &shares, &s))
    }

    fn shares(&self, at: Stand, off: &[f64], last: bool) -> Vec<Share> {
        let b = at.ln_b.exp();
        self.voices
            .iter()
            .zip(off)
            .map(|(voice, e)| {
                let n2 = voice.n * voice.n;
                let hz =
                    voice.n * self.reference_hz * (1.0 + b * n2).sqrt() * ((at.x + e) * CENT).exp();
                let m = voice.moments(self.tau, hz, at.glide, last);
                let d = 1.0 + self.off_law * self.off_law * m.uu;
                Share {
                    n: voice.n,
                    bend: slope(b, voice.n),
                    m,
                    d,
                }
            })
            .collect()
    }

    fn sums(&self, at: Stand, off: &[f64], shares: &[Share]) -> Sums {
        let mut s = Sums::default();
        let var = self.off_law * self.off_law;
        for (share, e) in shares.iter().zip(off) {
            let (m, d) = (share.m, share.d);
            // the departure integrated out: what is left speaks of law and glide
            let (uu, ug) = (m.uu / d, m.ug / d);
            let gg = m.gg - var * m.ug * m.ug / d;
            let su = (m.su + m.uu * e) / d;
            let sg = m.sg - var * m.su * m.ug / d + m.ug * e / d;
            let t = [1.0, share.bend];
            for i in 0..2 {
                for j in 0..2 {
                    s.h[i][j] += uu * t[i] * t[j];
                }
                s.h[i][2] += ug * t[i];
                s.v[i] += su * t[i];
            }
            s.h[2][2] += gg;
            s.v[2] += sg;
            s.log_z += m.log - 0.5 * d.ln()
                + (0.5 * var * m.su * m.su - m.su * e - 0.5 * e * e * m.uu) / d;
        }
        let precision = 1.0 / (self.prior.b_spread * self.prior.b_spread);
        let away = self.prior.b.ln() - at.ln_b;
        s.h[1][1] += precision;
        s.v[1] += precision * away;
        s.log_z -= 0.5 * precision * away * away;
        s
    }

    fn step(&self, s: &Sums, at: Stand) -> Option<Step> {
        let (h, v) = (&s.h, &s.v);
        let det = h[0][0] * h[1][1] - h[0][1] * h[0][1];
        if !(det > 0.0 && det.is_finite()) {
            return None;
        }
        let solve = |a: f64, b: f64| {
            [
                (h[1][1] * a - h[0][1] * b) / det,
                (h[0][0] * b - h[0][1] * a) / det,
            ]
        };
        let follow = solve(h[0][2], h[1][2]);
        let still = solve(v[0], v[1]);
        let mut log_z = s.log_z + 0.5 * (v[0] * still[0] + v[1] * still[1]) - 0.5 * det.ln();
        let (mut by_glide, mut glide_var) = (0.0, 0.0);
        if self.tau.is_some() {
            let most = 1.15 * self.prior.glide_cents;
            let info =
                (h[2][2] - h[0][2] * follow[0] - h[1][2] * follow[1]).max(0.1 / (most * most));
            let score = v[2] - h[0][2] * still[0] - h[1][2] * still[1];
            let sd = info.sqrt().recip();
            let (mean, var, ln_mass) = between(at.glide + score / info, sd, 0.0, most);
            log_z += 0.5 * score * score / info + (sd / most).ln() + ln_mass;
            (by_glide, glide_var) = (mean - at.glide, var);
        }
        Some(Step {
            by: [
                still[0] - follow[0] * by_glide,
                (still[1] - follow[1] * by_glide).clamp(-0.7, 0.7),
                by_glide,
            ],
            cov: [h[1][1] / det, -h[0][1] / det, h[0][0] / det],
            follow,
            glide_var,
            log_z,
        })
    }

    fn move_on(&self, at: &mut Stand, off: &mut [f64], shares: &[Share], s: &Step) {
        let var = self.off_law * self.off_law;
        for (share, e) in shares.iter().zip(off) {
            let t = s.by[0] + share.bend * s.by[1];
            if var > 0.0 {
                *e = *e - t + (var * (share.m.su - share.m.ug * s.by[2]) + t - *e) / share.d;
            }
        }
        at.x += s.by[0];
        at.ln_b += s.by[1];
        at.glide += s.by[2];
    }

    fn concluded(
        &self,
        at: Stand,
        before: &[f64],
        off: &[f64],
        shares: &[Share],
        s: &Step,
    ) -> Answer {
        let b = at.ln_b.exp();
        let var = self.off_law * self.off_law;
        let variance = |one: f64, bend: f64, glide: f64| {
            let along = glide - one * s.follow[0] - bend * s.follow[1];
            one * one * s.cov[0]
                + 2.0 * one * bend * s.cov[1]
                + bend * bend * s.cov[2]
                + along * along * s.glide_var
        };
        let total: f64 = self.weights.iter().map(|w| w.size).sum();
        let found = |w: &Weight| shares.iter().position(|s| s.n == w.n);
        let place = |w: &Weight| at.x + law_cents(b, w.n) + found(w).map_or(0.0, |i| off[i]);
        let heard = self.weights.iter().map(|w| w.size * place(w)).sum::<f64>() / total;
        let faults = if self.tau.is_some() { 1.0 } else { EVEN };
        let (mut one, mut bend, mut glide, mut rest) = (0.0, 0.0, 0.0, 0.0);
        for w in self.weights {
            let part = w.size / total;
            let (d, ug) = found(w).map_or((1.0, 0.0), |i| (shares[i].d, shares[i].m.ug));
            one += part / d;
            bend += part * slope(b, w.n) / d;
            glide -= part * var * ug / d;
            let doubt = (w.doubt + w.fault * faults).min(1.0);
            rest += part * part * (var / d + doubt * (place(w) - heard).powi(2));
        }
        let own = shares
            .iter()
            .zip(before)
            .map(|(sh, e)| Own {
                n: sh.n,
                cents: at.x - s.by[0]
                    + e
                    + law_cents((at.ln_b - s.by[1]).exp(), sh.n)
                    + (sh.m.su - sh.m.ug * s.by[2]) / sh.m.uu.max(1e-9),
                var: 1.0 / sh.m.uu.max(1e-9) + (sh.m.ug / sh.m.uu.max(1e-9)).powi(2) * s.glide_var,
            })
            .collect();
        Answer {
            log_z: s.log_z,
            plain: self.tau.is_none(),
            off_law: self.off_law,
            stand: at,
            f1: (at.x + law_cents(b, 1.0), variance(1.0, slope(b, 1.0), 0.0)),
            heard: (heard, variance(one, bend, glide) + rest),
            own,
        }
    }
}

/// Cents of partial `n` above n·f0.
fn law_cents(b: f64, n: f64) -> f64 {
    0.5 / CENT * (b * n * n).ln_1p()
}

/// What a step of ln B adds to it.
fn slope(b: f64, n: f64) -> f64 {
    0.5 / CENT * b * n * n / (1.0 + b * n * n)
}

/// Mean, variance and logarithm of the mass (against the height times `sd`) of a normal law between two limits.
fn between(mean: f64, sd: f64, low: f64, high: f64) -> (f64, f64, f64) {
    // 64 points: the law may be narrow or wide
    let (a, b) = (low.max(mean - 6.0 * sd), high.min(mean + 6.0 * sd));
    if a >= b {
        // the tail's first term
        let at = if mean < low { low } else { high };
        let z = ((mean - at) / sd).abs();
        let slack = sd / z;
        return (
            at + if mean < low { slack } else { -slack },
            slack * slack,
            -0.5 * z * z - z.ln(),
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
    (
        m,
        (m2 / m0 - m * m).max(1e-12),
        (m0 * (b - a) / 64.0 / sd).ln(),
    )
}

#[cfg(test)]
mod tests {
    use super::between;

    /// Against the sum of many narrow strips, inside the limits, across them, and far outside.
    #[test]
    fn a_normal_law_between_two_limits_keeps_its_mass_however_far_away_it_lies() {
        for (mean, sd) in [
            (3.0, 0.5),
            (-0.4, 1.0),
            (5.9, 2.0),
            (-9.0, 1.0),
            (16.0, 0.8),
        ] {
            let (low, high) = (0.0, 6.0);
            let strips = 200_000;
            let width = (high - low) / f64::from(strips);
            let (mut m0, mut m1) = (0.0, 0.0);
            // heights against the height at the nearest limit, so that nothing underflows
            let nearest = f64::clamp(mean, low, high);
            let far = ((nearest - mean) / sd) * ((nearest - mean) / sd);
            for i in 0..strips {
                let g = low + width * (f64::from(i) + 0.5);
                let z = (g - mean) / sd;
                let p = (-0.5 * (z * z - far)).exp();
                m0 += p * width / sd;
                m1 += p * width / sd * g;
            }
            let (found, _, ln_mass) = between(mean, sd, low, high);
            let ln_truth = m0.ln() - 0.5 * far;
            assert!(
                (ln_mass - ln_truth).abs() < 0.05,
                "{mean} ± {sd}: {ln_mass}, {ln_truth}"
            );
            assert!(
                (found - m1 / m0).abs() < 0.02 * sd,
                "{mean} ± {sd}: {found}, {}",
                m1 / m0
            );
        }
    }
}
