//! How well a string of a given law explains what began to sound.

use crate::comb::Law;
use crate::spectrum::{Spectrograph, Spectrum};

/// What the loudest new partial weighs against a string that has none there.
const UNEXPLAINED: f64 = 0.45;

/// What a partial weighs that is not there, against half of its stronger neighbour.
const MISSING: f64 = 0.8;
/// What it costs to say that a string was plucked at its middle.
const MIDDLE: f64 = 1.5;

/// Share of odd partials from which the lower of two strings an octave apart is the one that sounded, and what each plain one
/// adds to it.
const ODD_SHARE: f64 = 0.27;
const PLAIN: f64 = 0.08;

/// What each partial that a law claims is taken to find by chance, at its best place.
const DENSE: f64 = 0.05;

/// What began at the onset: at each frequency the logarithm of new power over the floor.
pub struct Picture {
    mass: Vec<f32>,
    /// running mean of mass, for what a comb finds by chance
    chance: Vec<f32>,
    bin_hz: f64,
    line_hz: f64,
    top_hz: f64,
    /// the loudest of what is new: frequency, mass
    loudest: (f64, f64),
}

/// How well a law explains a picture.
#[derive(Clone, Copy, Debug)]
pub struct Evidence {
    /// Explained mass less what is missing.
    pub score: f64,
    /// The law at its best.
    pub law: Law,
}

impl Picture {
    /// From the spectrum after the onset and, where there was sound before it, that before.
    pub fn new(after: &Spectrum, before: Option<&Spectrum>, top_hz: f64) -> Picture {
        let bins = ((top_hz / after.bin_hz) as usize).min(after.power.len() - 1);
        let mut mass = vec![0.0f32; bins];
        let gain = before.map_or(0.0, |b| (after.weight / b.weight).powi(2) as f32);
        let mut loudest = (0.0, 0.0, 0.0f32);
        for (i, m) in mass.iter_mut().enumerate().skip(1) {
            let hz = i as f64 * after.bin_hz;
            let mut power = after.power[i];
            let mut floor = after.floor(hz);
            if let Some(b) = before {
                let old = b.most(hz, 6.0 + 0.008 * hz);
                let old_floor = b.floor(hz);
                let steady = (old - 2.0 * old_floor).max(0.0) * gain;
                power = (power - 2.0 * steady).max(0.0);
                floor += 0.3 * steady;
            }
            *m = (1.0 + power / (3.0 * floor)).ln();
            if hz > 80.0 && power > loudest.2 {
                loudest = (hz, f64::from(*m), power);
            }
        }
        // mean over about an octave's third
        let mut sums = vec![0.0f64; bins + 1];
        for i in 0..bins {
            sums[i + 1] = sums[i] + f64::from(mass[i]);
        }
        let chance = (0..bins)
            .map(|i| {
                let half =
                    (0.12 * i as f64) as usize + (2.0 * after.line_hz / after.bin_hz) as usize;
                let (a, b) = (i.saturating_sub(half), (i + half).min(bins));
                ((sums[b] - sums[a]) / (b - a).max(1) as f64) as f32
            })
            .collect();
        Picture {
            mass,
            chance,
            bin_hz: after.bin_hz,
            line_hz: after.line_hz,
            top_hz,
            loudest: (loudest.0, loudest.1),
        }
    }

    /// Whether one of the law's partials is the loudest of what is new.
    fn explains_loudest(&self, law: Law) -> bool {
        let hz = self.loudest.0;
        let near = (hz / law.f0_hz) as usize;
        let slack = self.line_hz.max(0.007 * hz);
        (near.saturating_sub(2)..=near + 1).any(|n| n > 0 && (law.partial(n) - hz).abs() < slack)
    }

    fn mass(&self, hz: f64) -> f32 {
        let x = hz / self.bin_hz;
        let i = x as usize;
        if i + 1 >= self.mass.len() {
            return 0.0;
        }
        let t = (x - i as f64) as f32;
        self.mass[i] * (1.0 - t) + self.mass[i + 1] * t
    }

    fn chance(&self, hz: f64) -> f32 {
        let i = (hz / self.bin_hz) as usize;
        self.chance.get(i).copied().unwrap_or(0.0)
    }

    /// Evidence for the best law within `cents` of `start`.
    pub fn of(&self, start: Law, cents: f64) -> Evidence {
        let most = ((self.top_hz.min(5200.0) / start.f0_hz) as usize).clamp(1, 24);
        let top = start.partial(most);
        let step = (0.5 * self.line_hz / top * 1731.0).clamp(1.0, 15.0);
        let steps = (cents / step).ceil() as i32;
        let mut best = Evidence {
            score: f64::MIN,
            law: start,
        };
        let mut found = vec![0.0f64; most + 2];
        let mut places = vec![0.0f64; most + 1];
        for bend in [0.6, 1.0, 1.7] {
            let b = start.b * bend;
            if bend != 1.0 && 865.6 * b * (most * most) as f64 * 0.5 < step {
                continue;
            }
            for i in -steps..=steps {
                let law = Law {
                    f0_hz: start.f0_hz * (cents * f64::from(i) / f64::from(steps) / 1200.0).exp2(),
                    b,
                };
                for ((n, hz), mass) in (0..).zip(&mut places).zip(&mut found).skip(1) {
                    *hz = law.partial(n);
                    *mass = f64::from(self.mass(*hz));
                }
                // a string plucked at its middle has its odd partials only
                let (mut score, mut middle) = (0.0, -MIDDLE);
                for (n, hz) in places.iter().copied().enumerate().skip(1) {
                    let over = found[n] - f64::from(self.chance(hz));
                    // the lowest sounds of a harp hardly reach a microphone
                    let heard = (hz / 110.0).min(1.0);
                    let missing = |near: f64| MISSING * heard * (0.5 * near - found[n]).max(0.0);
                    let beside = |by: usize| {
                        let below = if n > by { found[n - by] } else { 0.0 };
                        below.max(found.get(n + by).copied().unwrap_or(0.0))
                    };
                    score += over - missing(beside(1));
                    if n % 2 == 1 {
                        middle += over - missing(beside(2));
                    }
                }
                let score = score.max(middle);
                if score > best.score {
                    best = Evidence { score, law };
                }
            }
        }
        // a dense comb finds more by chance, the best of many all the more
        best.score -= DENSE * most as f64;
        if !self.explains_loudest(best.law) {
            best.score -= UNEXPLAINED * self.loudest.1;
        }
        best
    }
}

impl Picture {
    /// For a law and the one an octave above it: whether the lower string sounded, above nought, or the higher one, below.
    /// It says how much stands at the lower one's odd partials, over what stands by chance, against what stands at its even
    /// ones, and how many of the odd stand out plainly.
    pub fn lower_rather(&self, lower: Law) -> f64 {
        let most = ((3000.0 / lower.f0_hz) as usize).clamp(4, 20);
        let (mut odd, mut even, mut plain) = (0.0, 0.0, 0);
        for n in 1..=most {
            let hz = lower.partial(n);
            let heard = (hz / 110.0).min(1.0);
            let (mass, chance) = (f64::from(self.mass(hz)), f64::from(self.chance(hz)));
            let over = heard * (mass - chance);
            if n % 2 == 0 {
                even += over;
                continue;
            }
            odd += over;
            plain += u8::from(hz > 60.0 && mass > 2.5 && mass - chance > 1.5);
        }
        odd / even.abs().max(0.5) + PLAIN * f64::from(plain.min(3)) - ODD_SHARE
    }
}

/// Spectra before and after an onset, made with one plan.
pub fn picture(graph: &mut Spectrograph, before: &[f32], after: &[f32], top_hz: f64) -> Picture {
    let new = graph.of(after);
    let old = (before.len() > 64).then(|| graph.of(before));
    Picture::new(&new, old.as_ref(), top_hz)
}

#[cfg(test)]
mod tests {
    use super::{Evidence, Picture, picture};
    use crate::comb::Law;
    use crate::spectrum::Spectrograph;

    const RATE_HZ: f64 = 48_000.0;

    /// A quarter of a second of some partials of a law, each 1/n loud, in faint noise that is always the same.
    fn heard(law: Law, sounds: impl Fn(usize) -> bool) -> Picture {
        let mut noise = 1u32;
        let sound: Vec<f32> = (0..12_000)
            .map(|i| {
                let t = f64::from(i) / RATE_HZ;
                let partials = (1..=30).filter(|n| sounds(*n)).map(|n| {
                    let decay = (-(1.0 + 0.1 * n as f64) * t).exp();
                    decay * (std::f64::consts::TAU * law.partial(n) * t + n as f64).sin() / n as f64
                });
                noise = noise.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
                let hiss = f64::from(noise) / f64::from(u32::MAX) - 0.5;
                (0.1 * partials.sum::<f64>() + 1e-3 * hiss) as f32
            })
            .collect();
        let mut graph = Spectrograph::new(sound.len(), RATE_HZ);
        picture(&mut graph, &[], &sound, 14_000.0)
    }

    /// Wires of the lowest octave and the one above, stiff as the synthetic harp's are.
    const F1: Law = Law {
        f0_hz: 43.28,
        b: 4.3e-5,
    };
    const F2: Law = Law {
        f0_hz: 87.3,
        b: 6.4e-5,
    };

    fn evidence(picture: &Picture, law: Law) -> Evidence {
        picture.of(law, 100.0)
    }

    #[test]
    fn a_string_plucked_at_its_middle_is_not_taken_for_the_octave_above() {
        let picture = heard(F1, |n| n % 2 == 1);
        let (own, octave) = (evidence(&picture, F1), evidence(&picture, F2));
        assert!(
            own.score > octave.score,
            "{} against {}",
            own.score,
            octave.score
        );
        assert!(pitch::cents(F1.partial(1), own.law.partial(1)).abs() < 15.0);
    }

    #[test]
    fn odd_partials_tell_the_lower_of_two_an_octave_apart() {
        let both = heard(F1, |_| true);
        assert!(both.lower_rather(F1) > 0.2, "{}", both.lower_rather(F1));
        let higher = heard(F2, |_| true);
        let lower = Law {
            f0_hz: 0.5 * F2.f0_hz,
            b: 0.25 * F2.b,
        };
        assert!(
            higher.lower_rather(lower) < -0.1,
            "{}",
            higher.lower_rather(lower)
        );
    }
}
