//! What one string does beside its kind.

use nalgebra::{SMatrix, SVector};

use crate::prior::Prior;
use crate::student::weight;
use crate::together::Drive;

/// °C, per cent, days; how far it was turned, downwards counted up, for it falls back; e-folds of its age.
pub(crate) type OwnDrive = SVector<f64, 5>;
type Square = SMatrix<f64, 5, 5>;

pub(crate) fn own_drive(drive: &Drive, turned: f64, aged: f64) -> OwnDrive {
    OwnDrive::new(drive[0], drive[1], drive[2], -turned, aged)
}

/// What is known of a string.
#[derive(Clone, Debug)]
pub(crate) struct Own {
    pub(crate) mean: OwnDrive,
    pub(crate) covariance: Square,
    /// The variance of what it wanders in a day.
    pub(crate) wanders2: f64,
}

/// How the strings of a kind differ: means and variances.
#[derive(Clone, Debug)]
pub(crate) struct Apart {
    pub(crate) mean: OwnDrive,
    pub(crate) variance: OwnDrive,
    pub(crate) wanders2: f64,
}

/// A stretch of one string, what its kind did taken off.
#[derive(Clone, Copy, Debug)]
pub(crate) struct OwnMove {
    pub(crate) drive: OwnDrive,
    pub(crate) cents: f64,
    /// The variance of its readings and of what was taken off.
    pub(crate) variance: f64,
    pub(crate) growth: f64,
}

/// So many strings' worth of prior.
const PRIOR: f64 = 4.0;

impl Apart {
    pub(crate) fn begin(prior: &Prior) -> Apart {
        let [warm, damp, day] = prior.apart;
        let (falls, creeps) = (prior.falls_back, prior.creeps);
        let square = |sd: f64| sd * sd;
        Apart {
            mean: OwnDrive::new(0.0, 0.0, 0.0, falls.0, creeps.0),
            variance: OwnDrive::new(
                square(warm),
                square(damp),
                square(day),
                square(falls.2) + square(falls.1),
                square(creeps.2) + square(creeps.1),
            ),
            wanders2: square(prior.wanders),
        }
    }

    pub(crate) fn own(&self) -> Own {
        Own {
            mean: self.mean,
            covariance: Square::from_diagonal(&self.variance),
            wanders2: self.wanders2,
        }
    }

    /// From what is known of each string: how they differ. Only strings that were asked count.
    pub(crate) fn learn(&mut self, prior: &Prior, all: &[(&Own, OwnDrive)]) {
        let begin = Apart::begin(prior);
        let (falls, creeps) = (prior.falls_back, prior.creeps);
        // the mean of what is not centred on the kind: how far strings fall back, how far they creep
        for (at, (mean, of_mean, of_each)) in [(3, falls), (4, creeps)] {
            let mut precision = 1.0 / (of_mean * of_mean);
            let mut sum = mean * precision;
            for (own, asked) in all {
                if asked[at] > 0.0 {
                    // what a string says of itself, the pooled mean taken out again
                    let said = 1.0 / own.covariance[(at, at)] - 1.0 / self.variance[at];
                    if said > 1e-9 {
                        let alone = (own.mean[at] / own.covariance[(at, at)]
                            - self.mean[at] / self.variance[at])
                            / said;
                        let counts = 1.0 / (of_each * of_each + 1.0 / said);
                        precision += counts;
                        sum += counts * alone;
                    }
                }
            }
            self.mean[at] = sum / precision;
            self.variance[at] = of_each * of_each + 1.0 / precision;
        }
        for at in 0..3 {
            let mut sum = PRIOR * begin.variance[at];
            let mut count = PRIOR;
            for (own, asked) in all {
                if asked[at] > 0.0 {
                    sum += own.mean[at].powi(2) + own.covariance[(at, at)];
                    count += 1.0;
                }
            }
            self.variance[at] = sum / count;
        }
        let logs: f64 = all.iter().map(|(own, _)| own.wanders2.ln()).sum();
        let count = all.len() as f64;
        self.wanders2 = ((logs + PRIOR * begin.wanders2.ln()) / (count + PRIOR)).exp();
    }
}

impl Own {
    /// Learns from the string's moves; gives how much of each drive was asked.
    pub(crate) fn learn(&mut self, apart: &Apart, moves: &[OwnMove]) -> OwnDrive {
        let mut matrix = Square::from_diagonal(&apart.variance.map(|v| 1.0 / v));
        let mut right = apart.mean.component_div(&apart.variance);
        let mut asked = OwnDrive::zeros();
        for one in moves {
            let noise = self.wanders2 * one.growth + one.variance;
            let rest = one.cents - one.drive.dot(&self.mean);
            let counts = weight(rest * rest / noise) / noise;
            matrix += one.drive * one.drive.transpose() * counts;
            right += one.drive * one.cents * counts;
            asked += one.drive.map(|x| x * x) * counts;
        }
        self.covariance = matrix
            .try_inverse()
            .unwrap_or(Square::from_diagonal(&apart.variance));
        self.mean = self.covariance * right;
        let (mut sum, mut count) = (PRIOR * apart.wanders2, PRIOR);
        for one in moves {
            let wanders = self.wanders2 * one.growth;
            let noise = wanders + one.variance;
            let rest = one.cents - one.drive.dot(&self.mean);
            let share = wanders / noise;
            let known = (one.drive.transpose() * self.covariance * one.drive)[0];
            let said = (share * rest).powi(2) + share * one.variance + share * share * known;
            sum += weight(rest * rest / noise) * said / one.growth;
            count += 1.0;
        }
        self.wanders2 = sum / count;
        asked
    }
}
