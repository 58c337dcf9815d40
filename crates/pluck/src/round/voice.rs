//! A string while it sounds: all its partials, moving with its pin.

use std::f64::consts::TAU;

use realfft::num_complex::Complex64;

use super::strike::{Stood, Struck};
use crate::carrier::{Carrier, Corner, STEP};

/// A partial under this amplitude is let go (full scale is 1).
const SILENT: f64 = 1e-7;
/// A finger on the string takes a partial down by this much per second.
const FINGER: f64 = 170.0;
/// How far in Hz a partial may leave its carrier before it gets a new one.
const STRAY_HZ: f64 = 3.0;

/// A sounding string.
pub(crate) struct Voice {
    pub(crate) string: usize,
    tones: Vec<Tone>,
    glide: (f64, f64),
    age_s: f64,
    /// Cycles of f0 since the pluck.
    cycles: f64,
    rate_hz: f64,
    hushed: bool,
}

struct Tone {
    ratio: f64,
    modes: [Moving; 2],
    carrier: Carrier,
    carrier_hz: f64,
    /// The partial's own phase at the beginning of the step.
    turned: Complex64,
}

#[derive(Clone, Copy)]
struct Moving {
    value: Complex64,
    rate: Complex64,
    /// What one step makes of the value.
    grown: Complex64,
}

impl Voice {
    /// A string of number `string`, its f0 now `f0_hz`, from the pluck on.
    pub(crate) fn new(
        string: usize,
        struck: &[Struck],
        glide: (f64, f64),
        f0_hz: f64,
        rate_hz: f64,
    ) -> Self {
        let seconds = STEP as f64 / rate_hz;
        let tone = |s: &Struck| {
            let carrier_hz = s.ratio * f0_hz * (1.0 + glide.0);
            let moving = |m: crate::carrier::Mode| Moving {
                value: m.start,
                rate: m.rate,
                grown: (m.rate * seconds).exp(),
            };
            Tone {
                ratio: s.ratio,
                modes: s.modes.map(moving),
                carrier: Carrier::new(carrier_hz, rate_hz),
                carrier_hz,
                turned: Complex64::ONE,
            }
        };
        let tones = struck.iter().map(tone).collect();
        Self {
            string,
            tones,
            glide,
            age_s: 0.0,
            cycles: 0.0,
            rate_hz,
            hushed: false,
        }
    }

    /// Lays a finger on the string.
    pub(crate) fn hush(&mut self) {
        if self.hushed {
            return;
        }
        self.hushed = true;
        let seconds = STEP as f64 / self.rate_hz;
        for mode in self.tones.iter_mut().flat_map(|tone| &mut tone.modes) {
            mode.rate.re -= FINGER;
            mode.grown = (mode.rate * seconds).exp();
        }
    }

    /// Whether anything is left to hear.
    pub(crate) fn sounds(&self) -> bool {
        !self.tones.is_empty()
    }

    /// Adds the step that begins at `at_s` of the room's time.
    pub(crate) fn add(&mut self, string: &Stood, at_s: f64, out: &mut [f64; STEP]) {
        let seconds = STEP as f64 / self.rate_hz;
        let [first, middle, last] = self.f0_hz(string, at_s, seconds);
        // Simpson's rule; exact to 10⁻¹² of a cycle for a pin that moves evenly.
        let after = self.cycles + seconds * (first + 4.0 * middle + last) / 6.0;
        let mut own = [0.0; STEP];
        for tone in &mut self.tones {
            let mean_hz = tone.ratio * (after - self.cycles) / seconds;
            tone.follow(mean_hz, self.rate_hz);
            tone.write([first, last], after, seconds, &mut own);
            for (sum, y) in out.iter_mut().zip(&own) {
                *sum += y;
            }
        }
        self.tones.retain(Tone::sounds);
        self.cycles = after;
        self.age_s += seconds;
    }

    /// f0 at the beginning, middle and end of the step, glide included.
    fn f0_hz(&self, string: &Stood, at_s: f64, seconds: f64) -> [f64; 3] {
        let (depth, tau) = self.glide;
        let still = string.pin.still(at_s, at_s + seconds);
        let rest = string.f0_hz(at_s);
        [0.0, 0.5, 1.0].map(|part| {
            let f0 = if still {
                rest
            } else {
                string.f0_hz(at_s + part * seconds)
            };
            f0 * (1.0 + depth * (-(self.age_s + part * seconds) / tau).exp())
        })
    }
}

impl Tone {
    fn follow(&mut self, mean_hz: f64, rate_hz: f64) {
        if (mean_hz - self.carrier_hz).abs() > STRAY_HZ {
            self.carrier_hz = mean_hz;
            self.carrier = Carrier::new(mean_hz, rate_hz);
        }
    }

    fn write(&mut self, [first, last]: [f64; 2], cycles: f64, seconds: f64, out: &mut [f64; STEP]) {
        let (mut from, mut to) = (Corner::still(), Corner::still());
        for mode in &mut self.modes {
            from.add(mode.value, mode.rate * seconds);
            mode.value *= mode.grown;
            to.add(mode.value, mode.rate * seconds);
        }
        let stray = |f0_hz: f64| TAU * (self.ratio * f0_hz - self.carrier_hz);
        let turned = Complex64::cis(TAU * (self.ratio * cycles).fract());
        from.turned((self.turned, stray(first)), seconds);
        to.turned((turned * self.carrier.step.conj(), stray(last)), seconds);
        self.carrier.write(from, to, out);
        self.turned = turned;
    }

    fn sounds(&self) -> bool {
        self.modes.iter().map(|m| m.value.l1_norm()).sum::<f64>() > SILENT
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::carrier::Mode;
    use crate::generator::Generator;
    use crate::round::RoundString;
    use crate::round::strike::Struck;

    const RATE: f64 = 48_000.0;
    const STEPS: usize = 1_500;

    /// One partial by its definition: the phase added up from the frequency, eight times in a sample.
    fn slow(string: &Stood, tone: &Struck, (depth, tau): (f64, f64)) -> Vec<f64> {
        let mut cycles = 0.0;
        let mut out = Vec::new();
        for k in 0..STEPS * STEP {
            let t = k as f64 / RATE;
            let envelope: Complex64 = tone
                .modes
                .iter()
                .map(|m| m.start * (m.rate * t).exp())
                .sum();
            out.push((envelope * Complex64::cis(TAU * cycles)).re);
            for eighth in 0..8 {
                let t = t + (f64::from(eighth) + 0.5) / 8.0 / RATE;
                let glide = 1.0 + depth * (-t / tau).exp();
                cycles += tone.ratio * string.f0_hz(t) * glide / 8.0 / RATE;
            }
        }
        out
    }

    fn check(target_hz: f64, to_cents: f64, ratio: f64, glide: (f64, f64)) {
        let mut string = Stood::new(
            &RoundString::new("any", target_hz, -50.0),
            Generator::new(&[1]),
        );
        string.pin.turn(0.2, to_cents, 0.5);
        let tone = Struck {
            ratio,
            modes: [Mode::new(0.8, 4.0, 0.0, 1.0), Mode::new(0.3, 3.0, 0.5, 2.0)],
        };
        let mut voice = Voice::new(0, &[tone], glide, string.f0_hz(0.0), RATE);
        let mut fast = Vec::new();
        for step in 0..STEPS {
            let mut out = [0.0; STEP];
            voice.add(&string, (step * STEP) as f64 / RATE, &mut out);
            fast.extend(out);
        }
        let slow = slow(&string, &tone, glide);
        let worst = fast
            .iter()
            .zip(&slow)
            .map(|(a, b)| (a - b).abs())
            .fold(0.0, f64::max);
        // 10⁻⁵ is 100 dB under the partial; its own phase then is right to 0.0006 of a degree.
        assert!(worst < 1e-5, "{target_hz} Hz × {ratio}: {worst:e}");
    }

    #[test]
    fn a_still_string_follows_its_formula() {
        check(440.0, -50.0, 1.0, (0.0, 0.1));
        check(110.0, -50.0, 5.002, (0.004, 0.1));
    }

    #[test]
    fn a_string_turned_while_it_rings_follows_its_formula() {
        check(440.0, 0.0, 1.0, (0.003, 0.1));
        check(220.0, 100.0, 7.02, (0.003, 0.1));
        check(2_000.0, -150.0, 3.1, (0.001, 0.2));
    }

    #[test]
    fn a_finger_silences_a_string_within_a_tenth_of_a_second() {
        let string = Stood::new(&RoundString::new("any", 220.0, 0.0), Generator::new(&[1]));
        let tone = Struck {
            ratio: 1.0,
            modes: [Mode::new(0.5, 1.0, 0.0, 0.0); 2],
        };
        let mut voice = Voice::new(0, &[tone], (0.0, 1.0), 220.0, RATE);
        voice.hush();
        for step in 0..150 {
            voice.add(&string, (step * STEP) as f64 / RATE, &mut [0.0; STEP]);
        }
        assert!(!voice.sounds());
    }
}
