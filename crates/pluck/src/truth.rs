//! What is exactly true of a pluck, and the bound on how well anyone could know its pitch.

use crate::drawn::{CENTS, DrawnString, Sounded};

/// One partial of a string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Partial {
    /// Its number, from 1.
    pub n: u32,
    /// Frequency in Hz once any glide has died away.
    pub hz: f64,
    /// Amplitude at the pluck, in samples' units.
    pub amp: f64,
    /// Decay of the amplitude per second: amp·exp(−decay·t).
    pub decay: f64,
    /// Phase in radians at the pluck: amp·exp(−decay·t)·cos(2π·hz·t + phase) were there nothing else.
    pub phase: f64,
}

/// The truth of one pluck.
#[derive(Clone, Debug, PartialEq)]
pub struct Truth {
    /// The string's name, letter and scientific octave.
    pub string: String,
    /// The string's frequency in Hz were it in tune at A4 = 440 Hz.
    pub nominal_hz: f64,
    /// First partial, f0·√(1 + B), in Hz, once any glide has died away.
    pub f1_hz: f64,
    /// Sounding pitch in Hz: Σ w·f_n/n ÷ Σ w over n = 1…8, w = n² × energy of partial n from 50 to 500 ms after the pluck;
    /// the glide left out. With two polarisations f_n is the first's, the energy both's.
    pub sounding_hz: f64,
    /// The stiff string's f0 in Hz.
    pub f0_hz: f64,
    /// The stiff string's B.
    pub b: f64,
    /// How many cents above rest the pluck starts.
    pub glide_cents: f64,
    /// The partials, ascending; amplitudes of the first polarisation before it is shared with a second.
    pub partials: Vec<Partial>,
    /// Power of the pink noise between 20 Hz and 20 kHz, in samples' units squared.
    pub noise_power: f64,
}

impl Truth {
    pub(crate) fn of(
        (name, nominal_hz): (&str, f64),
        string: &DrawnString,
        sounded: &Sounded,
        (noise, scale): (f64, f64),
    ) -> Self {
        let partials = string.partials.iter();
        Self {
            string: name.to_owned(),
            nominal_hz,
            f1_hz: string.f0_hz * (1.0 + string.b).sqrt(),
            sounding_hz: string.sounding_hz(&sounded.energies),
            f0_hz: string.f0_hz,
            b: string.b,
            glide_cents: sounded.glide_cents,
            partials: partials
                .map(|p| Partial {
                    n: p.n,
                    hz: p.hz,
                    amp: p.amplitude * scale,
                    decay: p.decay,
                    phase: p.phase,
                })
                .collect(),
            noise_power: noise * scale * scale,
        }
    }

    /// How far off nominal the first partial lies, in cents; positive is high.
    #[must_use]
    pub fn off_cents(&self) -> f64 {
        pitch::cents(self.nominal_hz, self.f1_hz)
    }

    /// Cramér–Rao bound of `f1_hz` after listening for `seconds` (> 0) from the pluck on: one standard deviation, cents.
    ///
    /// Amplitude, phase, decay and B are taken as unknown, the noise as white near each partial: the frequency of a damped
    /// partial then has information A²(2π)²(I₂ − I₁²/I₀)/S with I_k = ∫t^k·exp(−2dt)dt and S the one-sided noise density, and
    /// the partials are joined by the stiff-string law in ln f0 and ln B (S. M. Kay, *Fundamentals of Statistical Signal
    /// Processing: Estimation Theory*, 1993, ch. 3). It holds where the string obeys the law and only noise disturbs it: the clean sets.
    ///
    /// ```
    /// let pluck = pluck::Set::Clean20.pluck(26, 0, 1); // A4
    /// let half = pluck.truth.bound_cents(0.5);
    /// assert!(half < 0.1 && half < pluck.truth.bound_cents(0.25));
    /// ```
    #[must_use]
    pub fn bound_cents(&self, seconds: f64) -> f64 {
        // Information matrix of (ln f0, ln B), and how ln f1 depends on them.
        let mut info = [[0.0; 2]; 2];
        for p in &self.partials {
            let density = self.noise_power / 1000f64.ln() / p.hz;
            let turn = std::f64::consts::TAU * p.hz;
            let weight = p.amp * p.amp / density * spread(p.decay, seconds) * turn * turn;
            let slope = [1.0, b_slope(self.b, p.n)];
            for (row, a) in info.iter_mut().zip(slope) {
                for (cell, c) in row.iter_mut().zip(slope) {
                    *cell += weight * a * c;
                }
            }
        }
        let c = b_slope(self.b, 1);
        let determinant = info[0][0] * info[1][1] - info[0][1] * info[1][0];
        let variance = (info[1][1] - 2.0 * c * info[0][1] + c * c * info[0][0]) / determinant;
        CENTS * variance.sqrt()
    }
}

/// ∂ln f_n/∂ln B of the stiff-string law.
fn b_slope(b: f64, n: u32) -> f64 {
    let stiff = b * f64::from(n) * f64::from(n);
    0.5 * stiff / (1.0 + stiff)
}

/// I₂ − I₁²/I₀ with I_k = ∫ t^k·exp(−2·decay·t) dt from 0 to `seconds`, by 2000 trapezia.
fn spread(decay: f64, seconds: f64) -> f64 {
    const STEPS: u32 = 2000;
    let step = seconds / f64::from(STEPS);
    let mut sums = [0.0; 3];
    for i in 0..=STEPS {
        let t = f64::from(i) * step;
        let end = if i == 0 || i == STEPS { 0.5 } else { 1.0 };
        let e = end * (-2.0 * decay * t).exp();
        for (sum, power) in sums.iter_mut().zip([e, e * t, e * t * t]) {
            *sum += power * step;
        }
    }
    sums[2] - sums[1] * sums[1] / sums[0]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_undamped_sinusoid_has_the_textbook_spread() {
        // ∫t² − (∫t)²/∫1 = T³/12 (Kay 1993, example 3.14).
        assert!((spread(0.0, 2.0) / (8.0 / 12.0) - 1.0).abs() < 1e-6);
    }

    #[test]
    fn ten_decibels_more_noise_make_the_bound_ten_decibels_wider() {
        let mut truth = crate::Set::Clean40.pluck(10, 0, 1).truth;
        let quiet = truth.bound_cents(0.5);
        truth.noise_power *= 10.0;
        assert!((truth.bound_cents(0.5) / quiet / 10f64.sqrt() - 1.0).abs() < 1e-9);
    }
}
