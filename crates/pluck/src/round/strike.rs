//! One pluck of a string of the round: what it draws, what is true of it, and which other strings it wakes.

use std::f64::consts::{LN_2, SQRT_2};

use super::pins::Pin;
use super::{Room, RoundString};
use crate::carrier::Mode;
use crate::concert_harp::{roll_off, typical_b, typical_t60};
use crate::drawn::{
    CENTS, DrawnPartial, DrawnString, deepest_glide_cents, partial_hz, polarisations,
};
use crate::generator::Generator;
use crate::truth::Partial;

/// RMS of an ordinary pluck over its first half second.
pub(crate) const ORDINARY: f64 = 0.03;

/// A string as it is for the whole round: its law, its falseness, its pin.
pub(crate) struct Stood {
    pub(crate) name: String,
    pub(crate) target_hz: f64,
    pub(crate) b: f64,
    pub(crate) pin: Pin,
    /// By how much of itself each partial misses the law.
    misses: Vec<f64>,
}

/// A pluck, ready to sound.
pub(crate) struct Strike {
    pub(crate) tones: Vec<Struck>,
    /// Depth (relative) and time constant in seconds.
    pub(crate) glide: (f64, f64),
    /// RMS over the first 50 ms, over the first half second.
    pub(crate) start: f64,
    pub(crate) level: f64,
    partials: Vec<DrawnPartial>,
}

/// One partial: its frequency over f0, and how it moves.
#[derive(Clone, Copy)]
pub(crate) struct Struck {
    pub(crate) ratio: f64,
    pub(crate) modes: [Mode; 2],
}

impl Stood {
    pub(crate) fn new(string: &RoundString, mut draws: Generator) -> Self {
        let b = typical_b(string.target_hz) * (0.25 * draws.normal()).exp();
        let misses = (0..50)
            .map(|_| string.false_cents * draws.normal() / CENTS)
            .collect();
        let pin = Pin::at(string.off_cents);
        Self {
            name: string.name.clone(),
            target_hz: string.target_hz,
            b,
            pin,
            misses,
        }
    }

    /// f0 in Hz where the pin stands at this time.
    pub(crate) fn f0_hz(&self, at_s: f64) -> f64 {
        self.target_hz * (self.pin.cents(at_s) / 1200.0 * LN_2).exp() / (1.0 + self.b).sqrt()
    }

    /// Frequency of partial `n` over f0.
    fn ratio(&self, n: u32) -> f64 {
        let miss = self.misses.get(n as usize - 1).copied().unwrap_or(0.0);
        partial_hz(1.0, self.b, n) * (1.0 + miss)
    }

    /// Plucks the string at `at_s`.
    pub(crate) fn strike(
        &self,
        at_s: f64,
        level_db: f64,
        (room, rate_hz): (Room, f64),
        draws: &mut Generator,
    ) -> Strike {
        let law = (self.f0_hz(at_s), self.b);
        let mut drawn = DrawnString::plucked(self.target_hz, law, room.bass_corner_hz, draws);
        let tau = draws.between(0.08, 0.3);
        // A glide grows as the square of how far the string was drawn aside.
        let harder = 10f64.powf(level_db / 10.0).min(2.0);
        let depth = draws.between(0.0, deepest_glide_cents(self.target_hz)) * harder / CENTS;
        let mut modes: Vec<[Mode; 2]> = drawn
            .partials
            .iter()
            .map(|p| polarisations(p, draws))
            .collect();
        drawn.partials.retain(|p| p.hz < 0.45 * rate_hz);
        modes.truncate(drawn.partials.len());
        let level = ORDINARY * 10f64.powf(level_db / 20.0);
        let scale = level / loudness(&modes, 0.5);
        for (partial, modes) in drawn.partials.iter_mut().zip(&mut modes) {
            partial.amplitude *= scale;
            modes.iter_mut().for_each(|m| m.start *= scale);
        }
        let start = loudness(&modes, 0.05);
        let tones = drawn.partials.iter().zip(modes);
        let tones = tones
            .map(|(p, modes)| Struck {
                ratio: self.ratio(p.n),
                modes,
            })
            .collect();
        Strike {
            tones,
            glide: (depth, tau),
            start,
            level,
            partials: drawn.partials,
        }
    }

    /// What rings along with a string of `hz` plucked at `level` (RMS), if this one is its octave, fifth or twelfth.
    pub(crate) fn sympathy(
        &self,
        (at_s, hz, level): (f64, f64, f64),
        (room, rate_hz): (Room, f64),
        draws: &mut Generator,
    ) -> Vec<Struck> {
        let f0_hz = self.f0_hz(at_s);
        let near = |ratio: f64| (1200.0 * (f0_hz / hz / ratio).log2()).abs() < 50.0;
        let Some(ratio) = [0.5, 2.0, 1.5, 2.0 / 3.0, 3.0]
            .into_iter()
            .find(|&r| near(r))
        else {
            return Vec::new();
        };
        let meets = |m: u32| {
            let ours = f64::from(m) * ratio;
            (ours - ours.round()).abs() < 1e-6
                && f64::from(m) * f0_hz < 14_000f64.min(0.45 * rate_hz)
        };
        let mut modes = Vec::new();
        let mut ratios = Vec::new();
        for m in (1..=12).filter(|&m| meets(m)) {
            let hz = f64::from(m) * f0_hz;
            let decay = 1000f64.ln() / typical_t60(hz);
            let (amplitude, phase) = (
                roll_off(hz, room.bass_corner_hz) / f64::from(m),
                draws.angle(),
            );
            // Energy takes time to cross: × (1 − exp(−t/0.12 s)).
            let late = Mode::new(-amplitude, decay + 1.0 / 0.12, 0.0, phase);
            modes.push([Mode::new(amplitude, decay, 0.0, phase), late]);
            ratios.push(self.ratio(m));
        }
        let scale = level * 10f64.powf(-room.sympathy_under_db / 20.0) / loudness(&modes, 0.5);
        let scaled = |m: Mode| Mode {
            start: m.start * scale,
            ..m
        };
        ratios
            .into_iter()
            .zip(modes)
            .map(|(ratio, m)| Struck {
                ratio,
                modes: m.map(scaled),
            })
            .collect()
    }
}

impl Strike {
    /// The partials where the string stands when plucked.
    pub(crate) fn partials(&self, f0_hz: f64) -> Vec<Partial> {
        let both = self.partials.iter().zip(&self.tones);
        let partial = |(p, tone): (&DrawnPartial, &Struck)| Partial {
            n: p.n,
            hz: tone.ratio * f0_hz,
            amp: p.amplitude,
            decay: p.decay,
            phase: p.phase,
        };
        both.map(partial).collect()
    }

    /// The sounding pitch over f0: Σ w·f_n/n ÷ Σ w, n = 1…8, w = n² × energy from 50 to 500 ms, the glide left out.
    pub(crate) fn sounding_ratio(&self) -> f64 {
        let (mut sum, mut weights) = (0.0, 0.0);
        for (p, tone) in self
            .partials
            .iter()
            .zip(&self.tones)
            .filter(|(p, _)| p.n <= 8)
        {
            let n = f64::from(p.n);
            let weight = n * n * mean_square(&tone.modes, 0.05, 0.5);
            sum += weight * tone.ratio / n;
            weights += weight;
        }
        sum / weights
    }
}

/// RMS of all partials together over the first `seconds`; never quite 0.
fn loudness(modes: &[[Mode; 2]], seconds: f64) -> f64 {
    modes
        .iter()
        .map(|m| mean_square(m, 0.0, seconds))
        .sum::<f64>()
        .sqrt()
        + 1e-15
}

/// Mean square of a partial from one time to another, by 64 samples of its envelope.
fn mean_square(modes: &[Mode; 2], from_s: f64, to_s: f64) -> f64 {
    let squares = (0..64).map(|i| {
        let t = from_s + (to_s - from_s) * (f64::from(i) + 0.5) / 64.0;
        let [a, b] = modes.map(|m| m.start * (m.rate * t).exp() / SQRT_2);
        (a + b).norm_sqr()
    });
    squares.sum::<f64>() / 64.0
}

#[cfg(test)]
mod tests {
    use std::f64::consts::TAU;

    use realfft::num_complex::Complex64;

    use super::*;

    fn stood(false_cents: f64) -> Stood {
        let string = RoundString {
            false_cents,
            ..RoundString::new("A3", 220.0, 10.0)
        };
        Stood::new(&string, Generator::new(&[1]))
    }

    #[test]
    fn a_true_strings_partials_follow_the_law_and_a_false_ones_do_not() {
        let (law, miss) = (stood(0.0), stood(2.0));
        assert_eq!(law.ratio(3), partial_hz(1.0, law.b, 3));
        let off = CENTS * (miss.ratio(3) / partial_hz(1.0, miss.b, 3)).ln();
        assert!(off != 0.0 && off.abs() < 10.0, "{off}");
    }

    #[test]
    fn a_pluck_is_as_loud_as_asked() {
        let strike = stood(0.0).strike(
            0.0,
            -6.0,
            (Room::QUIET, 48_000.0),
            &mut Generator::new(&[2]),
        );
        assert!((strike.level / ORDINARY - 0.501).abs() < 1e-3);
        let modes: Vec<_> = strike.tones.iter().map(|t| t.modes).collect();
        assert!((loudness(&modes, 0.5) / strike.level - 1.0).abs() < 1e-9);
    }

    #[test]
    fn a_sounding_pitch_is_the_mean_weighted_by_the_energy_of_samples() {
        let string = Stood::new(&RoundString::new("C2", 65.4, 0.0), Generator::new(&[5]));
        let strike = string.strike(0.0, 0.0, (Room::QUIET, 48_000.0), &mut Generator::new(&[6]));
        let f0_hz = string.f0_hz(0.0);
        let (mut sum, mut weights) = (0.0, 0.0);
        for (n, tone) in (1..=8).map(f64::from).zip(&strike.tones) {
            let energy: f64 = (2_400..24_000)
                .map(|k| f64::from(k) / 48_000.0)
                .map(|t| {
                    let envelope: Complex64 = tone
                        .modes
                        .iter()
                        .map(|m| m.start * (m.rate * t).exp())
                        .sum();
                    (envelope * Complex64::cis(TAU * tone.ratio * f0_hz * t))
                        .re
                        .powi(2)
                })
                .sum();
            sum += n * n * energy * tone.ratio / n;
            weights += n * n * energy;
        }
        let off = CENTS * (strike.sounding_ratio() / (sum / weights)).ln();
        assert!(off.abs() < 0.01, "{off} cents");
    }

    #[test]
    fn octaves_and_fifths_ring_along_and_seconds_do_not() {
        let room = (Room::QUIET, 48_000.0);
        let rings = |hz| {
            !stood(0.0)
                .sympathy((0.0, hz, 0.03), room, &mut Generator::new(&[3]))
                .is_empty()
        };
        assert!(rings(110.0) && rings(440.0) && rings(146.8) && !rings(246.9));
    }
}
