//! Held notes made of formulas, so that their pitch is known exactly.

use std::f64::consts::TAU;

/// Numbers of a fixed row (Knuth's multiplier), evenly from −1 to 1.
pub(crate) struct Row(pub(crate) u64);

impl Row {
    pub(crate) fn next(&mut self) -> f64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 40) as f64 / f64::from(1 << 23) - 1.0
    }
}

/// What sounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Voice {
    /// Eight partials that swing ±15 cents 5.5 times a second, louder by 15 % when high; the first is weak, as an oboe's is.
    Oboe,
    /// Odd partials only, nearly.
    Clarinet,
    /// The first partial, little else, ±8 cents at 5 a second.
    Flute,
    /// Ten partials falling as 1/n, ±12 cents at 6 a second; each swings by 18 % in loudness, up or down.
    Violin,
    /// Octaves and twelfth, steady.
    Organ,
    /// Stiff (B = 4e-4), decaying, two strings 0.6 cents apart of which the first is stronger.
    Piano,
    /// A bar: its fundamental and a fourth partial 6 cents off 4×, decaying.
    Mallet,
    /// Partials 2 to 7.
    NoFundamental,
}

pub(crate) const VOICES: [Voice; 8] = [
    Voice::Oboe,
    Voice::Clarinet,
    Voice::Flute,
    Voice::Violin,
    Voice::Organ,
    Voice::Piano,
    Voice::Mallet,
    Voice::NoFundamental,
];

/// Number, strength and decay a second of each partial, and its cents above n times the first.
fn partials(voice: Voice) -> Vec<(f64, f64, f64, f64)> {
    let row = |strengths: &[f64]| {
        (1..)
            .zip(strengths)
            .map(|(n, a)| (f64::from(n), *a, 0.0, 0.0))
            .collect()
    };
    match voice {
        Voice::Oboe => row(&[0.25, 0.6, 1.0, 0.9, 0.4, 0.3, 0.2, 0.1]),
        Voice::Clarinet => row(&[1.0, 0.03, 0.6, 0.05, 0.3, 0.1, 0.2]),
        Voice::Flute => row(&[1.0, 0.2, 0.05]),
        Voice::Violin => row(&[1.0, 0.5, 0.33, 0.25, 0.2, 0.17, 0.14, 0.12, 0.11, 0.1]),
        Voice::Organ => row(&[1.0, 0.7, 0.4, 0.5, 0.0, 0.2, 0.0, 0.3]),
        Voice::NoFundamental => row(&[0.0, 0.8, 1.0, 0.7, 0.5, 0.3, 0.2]),
        // Fletcher, JASA 36, 1964: f_n = n·f0·√(1+B·n²)
        Voice::Piano => (1..=10)
            .map(|n| {
                let (n, b) = (f64::from(n), 4e-4);
                let stretch = 600.0 * ((1.0 + b * n * n) / (1.0 + b)).log2();
                (n, 1.0 / n, 0.4 + 0.2 * n, stretch)
            })
            .collect(),
        Voice::Mallet => vec![(1.0, 1.0, 0.9, 0.0), (4.0, 0.4, 4.0, 6.0)],
    }
}

/// Cents by which the voice swings at `t`, summed from the start as seconds × cents: what its phase has gained.
fn swing(voice: Voice) -> (f64, f64) {
    match voice {
        Voice::Oboe => (15.0, 5.5),
        Voice::Violin => (12.0, 6.0),
        Voice::Flute => (8.0, 5.0),
        _ => (0.0, 1.0),
    }
}

/// `seconds` of a voice whose first partial is `hz` (on the mean), about 0.2 strong, at `rate`.
pub(crate) fn note(voice: Voice, hz: f64, seconds: f64, rate: u32, seed: u64) -> Vec<f64> {
    let (cents, per_s) = swing(voice);
    let mut row = Row(seed);
    row.next();
    let start = row.next() * TAU;
    // small swings: phase is the sum of hz·(1 + cents·ln2/1200·sin)
    let depth = cents * std::f64::consts::LN_2 / 1200.0 / (TAU * per_s);
    let strings: &[(f64, f64)] = if voice == Voice::Piano {
        &[(0.65, 0.0), (0.35, 0.6)]
    } else {
        &[(1.0, 0.0)]
    };
    let length = (seconds * f64::from(rate)) as usize;
    let at = |i: usize| i as f64 / f64::from(rate);
    let turn = |i: usize| TAU * per_s * at(i) + start;
    let high: Vec<f64> = (0..length).map(|i| turn(i).sin()).collect();
    let gained: Vec<f64> = (0..length)
        .map(|i| at(i) + depth * (start.cos() - turn(i).cos()))
        .collect();
    let mut sound = vec![0.0; length];
    for (n, strength, decay, off) in partials(voice) {
        for (share, apart) in strings {
            let f = n * hz * ((off + apart) / 1200.0).exp2();
            let phase = row.next() * TAU;
            let louder = match voice {
                Voice::Violin => 0.18 * row.next().signum(),
                _ => 0.01 * cents,
            };
            if strength == 0.0 || f > 0.48 * f64::from(rate) {
                continue;
            }
            let (mut left, lost) = (1.0, (-decay / f64::from(rate)).exp());
            for (i, y) in sound.iter_mut().enumerate() {
                let loud = 0.1 * share * strength * (1.0 + louder * high[i]);
                *y += loud * left * (at(i) / 0.05).min(1.0) * (TAU * f * gained[i] + phase).cos();
                left *= lost;
            }
        }
    }
    sound
}

/// Adds noise so many decibels below the sound's mean power: white, or pink by Kellet's filter (from memory: three
/// first-order sections, near 1/f from 10 Hz to 20 kHz at 48 kHz).
pub(crate) fn with_noise(sound: &[f64], below_db: f64, pink: bool, seed: u64) -> Vec<f64> {
    let mut row = Row(seed);
    let mut state = [0.0f64; 3];
    let noise: Vec<f64> = sound
        .iter()
        .map(|_| {
            let white = row.next();
            if !pink {
                return white;
            }
            state[0] = 0.99765 * state[0] + white * 0.099_046;
            state[1] = 0.963 * state[1] + white * 0.296_516_4;
            state[2] = 0.57 * state[2] + white * 1.052_691_3;
            state.iter().sum::<f64>() + white * 0.1848
        })
        .collect();
    let power = |y: &[f64]| y.iter().map(|y| y * y).sum::<f64>();
    let gain = (power(sound) / power(&noise) / 10f64.powf(below_db / 10.0)).sqrt();
    sound
        .iter()
        .zip(&noise)
        .map(|(y, n)| y + gain * n)
        .collect()
}
