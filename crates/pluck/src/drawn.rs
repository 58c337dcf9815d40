//! One string as it stands today, drawn by chance: its partials and their law, alone or with what real strings add.

use crate::RATE_HZ;
use crate::carrier::{Glide, Mode, STEP, add_partial};
use crate::concert_harp::{MICROPHONE_HZ, interpolate, roll_off, typical_b, typical_t60};
use crate::generator::Generator;

/// Cents in one relative unit of frequency: 1200/ln 2.
pub(crate) const CENTS: f64 = 1200.0 / std::f64::consts::LN_2;
/// Amplitudes under this part of the loudest partial are left out.
const FLOOR: f64 = 1e-11;

/// A string's partials: number, Hz, amplitude, decay per second, phase in radians; and the law behind them.
#[derive(Clone, Debug)]
pub(crate) struct DrawnString {
    pub(crate) f0_hz: f64,
    pub(crate) b: f64,
    pub(crate) partials: Vec<DrawnPartial>,
}

#[derive(Clone, Copy, Debug)]
pub(crate) struct DrawnPartial {
    pub(crate) n: u32,
    pub(crate) hz: f64,
    pub(crate) amplitude: f64,
    pub(crate) decay: f64,
    pub(crate) phase: f64,
}

/// What a string sounded like: its samples, the energy of each partial between 50 and 500 ms, the glide in cents.
pub(crate) struct Sounded {
    pub(crate) samples: Vec<f64>,
    pub(crate) energies: Vec<f64>,
    pub(crate) glide_cents: f64,
}

impl DrawnString {
    /// Draws a string of nominal frequency `nominal_hz`: off by up to 30 cents (or by `off_cents`), B and decay scattered
    /// about what is typical.
    pub(crate) fn draw(nominal_hz: f64, off_cents: Option<f64>, draws: &mut Generator) -> Self {
        let chance = draws.between(-30.0, 30.0);
        let f0_hz = nominal_hz * 2f64.powf(off_cents.unwrap_or(chance) / 1200.0);
        let b = typical_b(nominal_hz) * (0.25 * draws.normal()).exp();
        Self::plucked(nominal_hz, (f0_hz, b), MICROPHONE_HZ, draws)
    }

    /// Draws one pluck of the string with this f0 and B: near the middle (so even partials are weak), heard through a
    /// microphone with this corner in Hz.
    pub(crate) fn plucked(
        nominal_hz: f64,
        (f0_hz, b): (f64, f64),
        corner_hz: f64,
        draws: &mut Generator,
    ) -> Self {
        let count = (14_000.0 / f0_hz).floor().min(50.0) as u32;
        let still = |n| DrawnPartial {
            n,
            hz: partial_hz(f0_hz, b, n),
            amplitude: 0.0,
            decay: 0.0,
            phase: 0.0,
        };
        let mut partials: Vec<DrawnPartial> =
            (1..=count).map(still).filter(|p| p.hz < 15_000.0).collect();
        let point = draws.between(0.36, 0.5);
        for p in &mut partials {
            let scatter = 10f64.powf(5.0 * draws.normal() / 20.0);
            let n = f64::from(p.n);
            let comb = (std::f64::consts::PI * n * point).sin().abs() / n;
            p.amplitude =
                comb * ((f0_hz - p.hz) / 1100.0).exp() * scatter * roll_off(p.hz, corner_hz);
        }
        let t60 = typical_t60(nominal_hz) * (0.15 * draws.normal()).exp();
        for p in &mut partials {
            let above = f64::from(p.n) - 1.0;
            p.decay = 1000f64.ln() * (1.0 + 0.15 * above + 0.008 * above * above) / t60;
            p.phase = draws.angle();
        }
        Self { f0_hz, b, partials }
    }

    /// The damped partials alone, each on the law; `n` samples at [`RATE_HZ`].
    pub(crate) fn sound(&self, n: usize) -> Sounded {
        let modes = |p: &DrawnPartial| vec![Mode::new(p.amplitude, p.decay, 0.0, p.phase)];
        self.render(n, modes, None, 0.0)
    }

    /// The same with a tension glide and, for each partial, a second polarisation that beats with the first.
    pub(crate) fn sound_real(&self, nominal_hz: f64, n: usize, draws: &mut Generator) -> Sounded {
        let depth = draws.between(0.0, deepest_glide_cents(nominal_hz)) / CENTS;
        let tau = draws.between(0.08, 0.3);
        let glide = Glide::new(depth, tau, n.div_ceil(STEP), f64::from(RATE_HZ));
        let modes = |p: &DrawnPartial| polarisations(p, draws).to_vec();
        self.render(n, modes, Some(&glide), depth * CENTS)
    }

    fn render(
        &self,
        n: usize,
        mut modes: impl FnMut(&DrawnPartial) -> Vec<Mode>,
        glide: Option<&Glide>,
        glide_cents: f64,
    ) -> Sounded {
        let rate_hz = f64::from(RATE_HZ);
        let floor = FLOOR
            * self
                .partials
                .iter()
                .map(|p| p.amplitude)
                .fold(0.0, f64::max);
        let heard = RATE_HZ as usize / 20..RATE_HZ as usize / 2;
        let mut samples = vec![0.0; n];
        let energies = self.partials.iter().map(|p| {
            let mut energy = 0.0;
            add_partial(
                &mut samples,
                (p.hz, rate_hz),
                &modes(p),
                glide,
                floor,
                |at, own| {
                    if p.n <= 8 && heard.contains(&at) {
                        energy += own.iter().map(|x| x * x).sum::<f64>();
                    }
                },
            );
            energy
        });
        let energies = energies.collect();
        Sounded {
            samples,
            energies,
            glide_cents,
        }
    }

    /// The sounding pitch in Hz: Σ w·f_n/n ÷ Σ w over n = 1…8, w = n² × energy of partial n from 50 to 500 ms.
    pub(crate) fn sounding_hz(&self, energies: &[f64]) -> f64 {
        let (mut sum, mut weights) = (0.0, 0.0);
        for (p, energy) in self.partials.iter().zip(energies).filter(|(p, _)| p.n <= 8) {
            let n = f64::from(p.n);
            sum += n * n * energy * p.hz / n;
            weights += n * n * energy;
        }
        sum / weights
    }
}

/// Frequency in Hz of partial `n` of a stiff string: n·f0·√(1 + B·n²) (H. Fletcher 1964).
pub(crate) fn partial_hz(f0_hz: f64, b: f64, n: u32) -> f64 {
    let n = f64::from(n);
    n * f0_hz * (1.0 + b * n * n).sqrt()
}

/// How many cents above rest a loud pluck of a string of `nominal_hz` may start: 14 in the bass, 1.5 at the top.
pub(crate) fn deepest_glide_cents(nominal_hz: f64) -> f64 {
    let points = [
        (32.7f64.ln(), 14.0),
        (261.6f64.ln(), 6.0),
        (3136f64.ln(), 1.5),
    ];
    interpolate(&points, nominal_hz.ln())
}

/// The two polarisations of a partial: the second weaker, longer and a little off.
pub(crate) fn polarisations(p: &DrawnPartial, draws: &mut Generator) -> [Mode; 2] {
    let side = f64::from(draws.pick(&[-1i8, 1]).unwrap_or(1));
    let split_hz = side * draws.between(0.1, 0.7) * (0.4 + p.hz / 1500.0);
    let amplitude = draws.between(0.1, 0.4) * p.amplitude;
    let decay = draws.between(0.5, 0.9) * p.decay;
    let phase = draws.between(0.0, 6.3);
    [
        Mode::new(0.85 * p.amplitude, p.decay, 0.0, p.phase),
        Mode::new(amplitude, decay, split_hz, phase),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_string_without_stiffness_sounds_at_f0() {
        let mut s = DrawnString::draw(220.0, Some(10.0), &mut Generator::new(&[3]));
        s.b = 0.0;
        for p in &mut s.partials {
            p.hz = partial_hz(s.f0_hz, 0.0, p.n);
        }
        let energies = s.sound(48_000).energies;
        assert!((s.sounding_hz(&energies) / s.f0_hz - 1.0).abs() < 1e-12);
    }

    #[test]
    fn a_given_detuning_replaces_the_drawn_one_and_nothing_else() {
        let free = DrawnString::draw(220.0, None, &mut Generator::new(&[3]));
        let fixed = DrawnString::draw(220.0, Some(50.0), &mut Generator::new(&[3]));
        assert_eq!(free.b, fixed.b);
        assert_eq!(free.partials[0].phase, fixed.partials[0].phase);
        assert!((CENTS * (fixed.f0_hz / 220.0f64).ln() - 50.0).abs() < 1e-9);
    }
}
