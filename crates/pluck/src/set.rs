//! The eight sets of single plucks on which ears are compared.

use std::fmt;
use std::str::FromStr;

use crate::RATE_HZ;
use crate::body::body;
use crate::concert_harp::{COMPASS, MICROPHONE_HZ, strings};
use crate::drawn::DrawnString;
use crate::generator::Generator;
use crate::noise::{pink, rms};
use crate::pit::pit;
use crate::sympathy::{add_previous_string, add_sympathy};
use crate::truth::Truth;

/// A set of single plucks: 47 strings C1–G7, each off by up to 30 cents, 2.2 s at 48 kHz, plucked at 0.100 s, peak 0.2.
///
/// The number is the pink noise in dB under the string's first half second. *Clean*: damped partials that obey the
/// stiff-string law, heard by a microphone that loses the bass. *Real*: besides, finger noise and soundboard knocks, a tension
/// glide, two polarisations that beat, sympathetic octaves and fifths, the previous string still ringing. *Pit*: as
/// `Real20`, and three to five instruments with vibrato 10 or 0 dB under the string.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Set {
    /// Clean, noise at −40 dB.
    Clean40,
    /// Clean, noise at −20 dB.
    Clean20,
    /// Clean, noise at −10 dB.
    Clean10,
    /// Real, noise at −40 dB.
    Real40,
    /// Real, noise at −20 dB.
    Real20,
    /// Real, noise at −10 dB.
    Real10,
    /// In the pit, instruments at −10 dB.
    Pit10,
    /// In the pit, instruments as loud as the string.
    Pit0,
}

/// One pluck: its samples and what is true of them.
#[derive(Clone, Debug, PartialEq)]
pub struct Pluck {
    /// Mono samples, −0.2 to 0.2.
    pub samples: Vec<f32>,
    /// Samples per second.
    pub rate: u32,
    /// The sample at which the string is let go.
    pub onset: usize,
    /// The truth.
    pub truth: Truth,
}

/// No set has this name.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("no set of plucks is called {name:?}")]
pub struct UnknownSet {
    /// What was asked for.
    pub name: String,
}

/// A pluck that cannot be made.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum PluckError {
    /// No harp string sounds there.
    #[error("no string sounds {hz} Hz: 20 to 4500 Hz can be plucked")]
    Nominal {
        /// What was asked for.
        hz: f64,
    },
    /// A detuning beyond an octave.
    #[error("{cents} cents off is more than an octave")]
    Detuning {
        /// What was asked for.
        cents: f64,
    },
}

const ONSET: usize = 4_800;
const LENGTH: usize = 105_600;
const PEAK: f64 = 0.2;

/// The string to be plucked, and where in the compass its neighbours stand.
struct Target<'a> {
    name: &'a str,
    nominal_hz: f64,
    off_cents: Option<f64>,
    index: usize,
}

impl Set {
    /// All sets, in the order that numbers them for the seed.
    pub const ALL: [Self; 8] = [
        Self::Clean40,
        Self::Clean20,
        Self::Clean10,
        Self::Real40,
        Self::Real20,
        Self::Real10,
        Self::Pit10,
        Self::Pit0,
    ];

    /// The set's name, as [`FromStr`] reads it.
    #[must_use]
    pub const fn as_str(self) -> &'static str {
        match self {
            Self::Clean40 => "clean40",
            Self::Clean20 => "clean20",
            Self::Clean10 => "clean10",
            Self::Real40 => "real40",
            Self::Real20 => "real20",
            Self::Real10 => "real10",
            Self::Pit10 => "pit10",
            Self::Pit0 => "pit0",
        }
    }

    /// One pluck of string `string_index` (0 = C1 … 46 = G7; beyond that the compass is counted round again).
    ///
    /// Equal arguments give equal samples. It takes some 10–40 ms.
    ///
    /// ```
    /// let pluck = pluck::Set::Real20.pluck(26, 0, 1);
    /// assert_eq!((pluck.truth.string.as_str(), pluck.rate, pluck.onset), ("A4", 48_000, 4_800));
    /// assert!(pluck.truth.off_cents().abs() < 31.0);
    /// ```
    #[must_use]
    pub fn pluck(self, string_index: usize, take: u64, seed: u64) -> Pluck {
        let strings = strings();
        let index = string_index % COMPASS;
        let mut draws = Generator::new(&[seed, self.number(), index as u64, take]);
        let (name, nominal_hz) = (strings[index].0.as_str(), strings[index].1);
        self.play(
            &Target {
                name,
                nominal_hz,
                off_cents: None,
                index,
            },
            &strings,
            &mut draws,
        )
    }

    /// One pluck of a string of any nominal frequency (20–4500 Hz), `off_cents` (±1200) off it.
    ///
    /// `off_cents` is where f0 stands against `nominal_hz`. Everything else is drawn as for the nearest string of the
    /// compass, and the same for every `off_cents`, so that plucks of one seed differ by their pitch alone.
    ///
    /// ```
    /// let e3 = 164.8;
    /// let high = pluck::Set::Real20.pluck_at(e3, 70.0, "E3", 1)?.truth;
    /// assert!((1200.0 * (high.f0_hz / e3).log2() - 70.0).abs() < 1e-9);
    /// # Ok::<(), pluck::PluckError>(())
    /// ```
    ///
    /// # Errors
    /// A frequency or detuning outside those ranges.
    pub fn pluck_at(
        self,
        nominal_hz: f64,
        off_cents: f64,
        name: &str,
        seed: u64,
    ) -> Result<Pluck, PluckError> {
        if !(20.0..=4500.0).contains(&nominal_hz) {
            return Err(PluckError::Nominal { hz: nominal_hz });
        }
        if !(-1200.0..=1200.0).contains(&off_cents) {
            return Err(PluckError::Detuning { cents: off_cents });
        }
        let strings = strings();
        let above = strings
            .partition_point(|s| s.1 < nominal_hz)
            .min(COMPASS - 1);
        let distance = |i: usize| (strings[i].1 / nominal_hz).ln().abs();
        let index = if above > 0 && distance(above - 1) < distance(above) {
            above - 1
        } else {
            above
        };
        // A stream of its own: 47 and up are no string's number.
        let mut draws = Generator::new(&[seed, self.number(), (COMPASS + index) as u64, 0]);
        let target = Target {
            name,
            nominal_hz,
            off_cents: Some(off_cents),
            index,
        };
        Ok(self.play(&target, &strings, &mut draws))
    }

    /// Every pluck of the set, string by string from C1, `takes` of each: (string index, take), for [`Set::pluck`].
    pub fn order(takes: u64) -> impl Iterator<Item = (usize, u64)> {
        (0..COMPASS).flat_map(move |index| (0..takes).map(move |take| (index, take)))
    }

    fn number(self) -> u64 {
        self as u64
    }

    /// With effects?, signal to noise in dB, signal to other instruments in dB.
    const fn conditions(self) -> (bool, f64, Option<f64>) {
        match self {
            Self::Clean40 => (false, 40.0, None),
            Self::Clean20 => (false, 20.0, None),
            Self::Clean10 => (false, 10.0, None),
            Self::Real40 => (true, 40.0, None),
            Self::Real20 => (true, 20.0, None),
            Self::Real10 => (true, 10.0, None),
            Self::Pit10 => (true, 20.0, Some(10.0)),
            Self::Pit0 => (true, 20.0, Some(0.0)),
        }
    }

    fn play(self, target: &Target<'_>, strings: &[(String, f64)], draws: &mut Generator) -> Pluck {
        let (effects, snr, pit_db) = self.conditions();
        let string = DrawnString::draw(target.nominal_hz, target.off_cents, draws);
        let n = LENGTH - ONSET;
        let sounded = if effects {
            string.sound_real(target.nominal_hz, n, draws)
        } else {
            string.sound(n)
        };
        let level = rms(&sounded.samples[..RATE_HZ as usize / 2]);
        let mut x = vec![0.0; LENGTH];
        add(&mut x[ONSET..], &sounded.samples, 1.0);
        if effects {
            add_company(target, strings, (&sounded.samples, level), &mut x, draws);
        }
        let noise = level * level * 10f64.powf(-snr / 10.0);
        add(&mut x, &pink(LENGTH, f64::from(RATE_HZ), noise, draws), 1.0);
        if let Some(db) = pit_db {
            let heard = (f64::from(RATE_HZ), MICROPHONE_HZ);
            add(
                &mut x,
                &pit(LENGTH, heard, draws),
                level * 10f64.powf(-db / 20.0),
            );
        }
        let scale = PEAK / x.iter().fold(0.0, |peak: f64, y| peak.max(y.abs()));
        let truth = Truth::of(
            (target.name, target.nominal_hz),
            &string,
            &sounded,
            (noise, scale),
        );
        let samples = x.iter().map(|y| (y * scale) as f32).collect();
        Pluck {
            samples,
            rate: RATE_HZ,
            onset: ONSET,
            truth,
        }
    }
}

/// Pluck noise, sympathetic strings and the string before, in the order of their draws.
fn add_company(
    target: &Target<'_>,
    strings: &[(String, f64)],
    (string, level): (&[f64], f64),
    x: &mut [f64],
    draws: &mut Generator,
) {
    let start = rms(&string[..RATE_HZ as usize / 20]);
    add(
        &mut x[ONSET..],
        &body(
            start,
            string.len(),
            f64::from(RATE_HZ),
            MICROPHONE_HZ,
            draws,
        ),
        1.0,
    );
    add_sympathy(target.nominal_hz, level, &mut x[ONSET..], draws);
    let nominals: Vec<f64> = strings.iter().map(|s| s.1).collect();
    add_previous_string(target.index, &nominals, level, x, draws);
}

fn add(out: &mut [f64], what: &[f64], factor: f64) {
    for (sum, y) in out.iter_mut().zip(what) {
        *sum += y * factor;
    }
}

impl FromStr for Set {
    type Err = UnknownSet;

    fn from_str(name: &str) -> Result<Self, UnknownSet> {
        let found = Self::ALL.into_iter().find(|set| set.as_str() == name);
        found.ok_or_else(|| UnknownSet {
            name: name.to_owned(),
        })
    }
}

impl fmt::Display for Set {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_set_reads_back_from_its_name() {
        for set in Set::ALL {
            assert_eq!(set.to_string().parse(), Ok(set));
        }
        assert_eq!(
            "loud".parse::<Set>(),
            Err(UnknownSet {
                name: "loud".to_owned()
            })
        );
    }

    #[test]
    fn plucks_outside_the_ranges_are_refused() {
        assert_eq!(
            Set::Real20.pluck_at(5.0, 0.0, "X", 1),
            Err(PluckError::Nominal { hz: 5.0 })
        );
        assert_eq!(
            Set::Real20.pluck_at(440.0, 1300.0, "X", 1),
            Err(PluckError::Detuning { cents: 1300.0 })
        );
        assert!(Set::Real20.pluck_at(f64::NAN, 0.0, "X", 1).is_err());
    }

    #[test]
    fn the_order_goes_string_by_string() {
        let order: Vec<_> = Set::order(2).collect();
        assert_eq!(
            (order.len(), order[0], order[1], order[2]),
            (94, (0, 0), (0, 1), (1, 0))
        );
    }
}
