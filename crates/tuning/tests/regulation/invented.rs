//! Invented checks of an invented harp: every step's truth is known.

use harp::{Harp, Mechanism, StringName};
use pitch::{Alteration, Letter};
use tuning::regulation::{Pluck, Step};

/// Half of a reading's 95 % interval, in cents.
const U95: f64 = 0.8;

/// What is wrong with a harp; errors in cents.
pub(crate) enum Fault {
    Pedal(Letter, Step, f64),
    Disc(StringName, Step, f64),
    NotMoved(Letter, Step),
}

/// Numbers drawn from a seed.
pub(crate) struct Invented {
    state: u64,
    /// The standard deviation of a middling string's own unrest from pluck to pluck, in cents.
    unrest: f64,
}

impl Invented {
    pub(crate) fn new(seed: u64, unrest: f64) -> Self {
        Invented {
            state: seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) + 1,
            unrest,
        }
    }

    /// Open, natural, sharp, open once more, each over all strings from the bass up.
    pub(crate) fn check(&mut self, harp: &Harp, faults: &[Fault]) -> Vec<Pluck> {
        let mut plucks = Vec::new();
        let strings: Vec<(f64, f64)> = harp
            .strings()
            .iter()
            .map(|_| {
                (
                    6.0 * self.normal(),
                    self.unrest * (0.5 * self.normal()).exp(),
                )
            })
            .collect();
        for stands in super::STANDS {
            for (string, (open, unrest)) in harp.strings().iter().zip(&strings) {
                if string.mechanism == Mechanism::Nothing {
                    continue;
                }
                let steps = match stands {
                    Alteration::Flat => &Step::ALL[..0],
                    Alteration::Natural => &Step::ALL[..1],
                    Alteration::Sharp => &Step::ALL[..],
                };
                let steps = steps.iter().map(|&step| error(string.name, step, faults));
                plucks.push(Pluck {
                    string: string.name,
                    stands,
                    off_cents: open
                        + steps.sum::<f64>()
                        + unrest * self.normal()
                        + U95 / 1.96 * self.normal(),
                    u95_cents: U95,
                });
            }
        }
        plucks
    }

    /// Normal by twelve even draws.
    fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.even()).sum::<f64>() - 6.0
    }

    /// Even between 0 and 1 (Steele, Lea & Flood 2014, the mixing of SplitMix64).
    fn even(&mut self) -> f64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}

fn error(string: StringName, at: Step, faults: &[Fault]) -> f64 {
    let one = |fault: &Fault| match *fault {
        Fault::Pedal(letter, step, error) if (string.letter, at) == (letter, step) => error,
        Fault::Disc(name, step, error) if (string, at) == (name, step) => error,
        Fault::NotMoved(letter, step) if (string.letter, at) == (letter, step) => -100.0,
        _ => 0.0,
    };
    faults.iter().map(one).sum()
}
