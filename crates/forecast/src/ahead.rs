//! Where each string will stand.

use std::collections::BTreeMap;

use diary::{Air, HarpKnown, Moment, Point, Stands};
use harp::StringName;
use nalgebra::{DMatrix, DVector};

use crate::air_at::{AirNow, air_at};
use crate::joint::Joint;
use crate::learned::Learned;
use crate::own::own_drive;
use crate::stretches::{aged, turned, variance};
use crate::student::{HALF_95, normal};
use crate::together::{Drive, lasting};
use crate::{DAY_S, growth};

/// Standard deviation of a string of which nothing was ever read, cents: a guess of ours.
const NEVER_READ: f64 = 25.0;

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub struct Ask<'a> {
    /// The harp as its diary knows it.
    pub known: &'a HarpKnown,
    /// The air as it was read, in order.
    pub air: &'a [(Moment, Air)],
    /// What each string shall sound without disc or lever, Hz.
    pub targets: &'a BTreeMap<StringName, f64>,
    /// When.
    pub when: Moment,
    /// The air then, as far as it is known.
    pub air_then: AirNow,
}

/// Why a string is expected where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Because {
    /// It was left so.
    Left {
        /// Cents above its target.
        cents: f64,
        /// Days ago.
        days: f64,
    },
    /// It gets warmer or colder.
    Warmth {
        /// By so many °C.
        degrees: f64,
        /// What that does, cents.
        cents: f64,
    },
    /// It gets damper or drier.
    Damp {
        /// By so many per cent.
        percent: f64,
        /// What that does, cents.
        cents: f64,
    },
    /// It goes one way as the days pass.
    Drift {
        /// So far, cents.
        cents: f64,
    },
    /// It was turned, and falls back.
    FallsBack {
        /// So far, cents.
        cents: f64,
    },
    /// It is new, and creeps.
    New {
        /// So far, cents.
        cents: f64,
    },
    /// The air then, or as it was left, is not known.
    AirUnknown,
    /// It was never read.
    NeverRead,
}

/// A string at that time.
#[derive(Clone, Debug, PartialEq)]
pub struct StringAhead {
    /// The string.
    pub string: StringName,
    /// Cents above its target.
    pub expected_cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
    /// Why, the most telling first.
    pub because: Vec<Because>,
}

/// All strings at that time, from the bass; what is broken or taken off is left out.
#[derive(Clone, Debug)]
pub struct Ahead {
    /// Each by itself.
    pub strings: Vec<StringAhead>,
    /// All together: what one shows of the others.
    pub joint: Joint,
}

/// One string before all are put together.
struct One {
    at: usize,
    mean: f64,
    drive: Drive,
    /// The variance that it has to itself.
    own: f64,
    /// The variance of what all of its kind wander.
    common: f64,
    because: Vec<Because>,
}

impl Learned {
    /// Where each string will stand.
    pub fn ahead(&self, ask: &Ask<'_>) -> Ahead {
        let all: Vec<One> = (0..self.names.len())
            .filter_map(|at| self.one(at, ask))
            .collect();
        let covariance = DMatrix::from_fn(all.len(), all.len(), |row, column| {
            let (a, b) = (&all[row], &all[column]);
            let own = if row == column { a.own } else { 0.0 };
            if self.wires[a.at] != self.wires[b.at] {
                return own;
            }
            let line = (a.drive.transpose() * self.class(a.at).together.covariance * b.drive)[0];
            own + normal(line) + (a.common * b.common).sqrt()
        });
        let strings = all.iter().enumerate().map(|(place, one)| StringAhead {
            string: self.names[one.at],
            expected_cents: one.mean,
            u95_cents: HALF_95 * covariance[(place, place)].sqrt(),
            because: one.because.clone(),
        });
        Ahead {
            strings: strings.collect(),
            joint: Joint {
                names: all.iter().map(|one| self.names[one.at]).collect(),
                mean: DVector::from_iterator(all.len(), all.iter().map(|one| one.mean)),
                covariance,
                plucked: vec![false; all.len()],
                strayed: (0.0, 0.0),
            },
        }
    }

    fn one(&self, at: usize, ask: &Ask<'_>) -> Option<One> {
        let name = self.names[at];
        let target_hz = *ask.targets.get(&name)?;
        let string = ask.known.strings.get(&name);
        if string.is_some_and(|string| string.stands != Stands::On) {
            return None;
        }
        let before = |point: &&Point| point.when <= ask.when;
        let last =
            string.and_then(|string| Some((string, string.history.iter().rev().find(before)?)));
        let Some((string, last)) = last else {
            return Some(One {
                at,
                mean: 0.0,
                drive: Drive::zeros(),
                own: normal(NEVER_READ.powi(2)),
                common: 0.0,
                because: vec![Because::NeverRead],
            });
        };
        let own = &self.own[at];
        let together = &self.class(at).together;
        let days = ask.when.since_s(last.when) / DAY_S;
        let change = air_at(ask.air, &ask.known.harp, last.when).change(ask.air_then);
        let [warmer, damper] = change.unwrap_or([0.0, 0.0]);
        let drive = Drive::new(warmer, damper, lasting(days));
        let found = string
            .history
            .iter()
            .rev()
            .find(|point| point.found && point.when <= last.when);
        let found = found.filter(|f| f.string == last.string && f.raised == last.raised);
        let of_own = own_drive(&drive, turned(found, last), aged(string, last, ask.when));
        let left = pitch::cents(target_hz, last.open_hz());
        let mean = left + drive.dot(&together.mean) + of_own.dot(&own.mean);
        let of_own_variance = (of_own.transpose() * own.covariance * of_own)[0];
        Some(One {
            at,
            mean,
            drive,
            own: normal(of_own_variance + variance(last)) + own.wanders2 * growth(days),
            common: together.wanders2[usize::from(change.is_none())] * growth(days),
            because: because(
                left,
                days,
                change,
                &[
                    drive[0] * (together.mean[0] + own.mean[0]),
                    drive[1] * (together.mean[1] + own.mean[1]),
                    drive[2] * (together.mean[2] + own.mean[2]),
                    of_own[3] * own.mean[3],
                    of_own[4] * own.mean[4],
                ],
            ),
        })
    }
}

/// Less than this is not worth a word, cents.
const WORTH: f64 = 0.3;

fn because(left: f64, days: f64, change: Option<[f64; 2]>, parts: &[f64; 5]) -> Vec<Because> {
    let [warm, damp, drift, falls, creeps] = *parts;
    let [degrees, percent] = change.unwrap_or([0.0, 0.0]);
    let mut all = vec![
        (left, Because::Left { cents: left, days }),
        (
            warm,
            Because::Warmth {
                degrees,
                cents: warm,
            },
        ),
        (
            damp,
            Because::Damp {
                percent,
                cents: damp,
            },
        ),
        (drift, Because::Drift { cents: drift }),
        (falls, Because::FallsBack { cents: falls }),
        (creeps, Because::New { cents: creeps }),
    ];
    all.retain(|(cents, _)| cents.abs() >= WORTH);
    all.sort_by(|a, b| b.0.abs().total_cmp(&a.0.abs()));
    let mut all: Vec<Because> = all.into_iter().map(|one| one.1).collect();
    if change.is_none() {
        all.push(Because::AirUnknown);
    }
    all
}
