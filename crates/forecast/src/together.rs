//! What all strings of one kind do together: a line through what the middle of them did in each stretch.

use nalgebra::{SMatrix, SVector};

use crate::growth;
use crate::prior::Prior;
use crate::stretches::Stretch;
use crate::student::weight;

/// What drives them: °C, per cent, days.
pub(crate) type Drive = SVector<f64, 3>;
type Square = SMatrix<f64, 3, 3>;

/// What is known of a kind.
#[derive(Clone, Debug)]
pub(crate) struct Together {
    pub(crate) mean: Drive,
    pub(crate) covariance: Square,
    /// The variance of what they wander together in a day, where the air is known, and where it is not.
    pub(crate) wanders2: [f64; 2],
}

/// What the strings of a kind did together in a stretch, as far as their readings say: mean and variance.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Middle {
    pub(crate) cents: f64,
    pub(crate) variance: f64,
}

impl Stretch {
    pub(crate) fn drive(&self) -> Drive {
        let [warmer, damper] = self.air.unwrap_or([0.0, 0.0]);
        Drive::new(warmer, damper, lasting(self.days))
    }

    fn of_air(&self) -> usize {
        usize::from(self.air.is_none())
    }
}

/// Days, of which the first count most: nobody knows of a drift that goes on for weeks.
pub(crate) fn lasting(days: f64) -> f64 {
    days / (1.0 + days / 14.0)
}

impl Together {
    pub(crate) fn begin(prior: &Prior) -> Together {
        let [warm, damp, day] = prior.together;
        Together {
            mean: Drive::new(warm.0, damp.0, day.0),
            covariance: Square::from_diagonal(&Drive::new(warm.1, damp.1, day.1).map(|sd| sd * sd)),
            wanders2: [prior.wanders_together.powi(2), prior.air_unknown.powi(2)],
        }
    }

    /// Learns from the middles (Bayesian linear regression, C. M. Bishop, *Pattern Recognition and Machine Learning*, 2006,
    /// Eq. 3.50–3.51; the variances by expectation and maximisation), and gives what was common in each stretch: mean and
    /// variance.
    pub(crate) fn learn(
        &mut self,
        prior: &Prior,
        stretches: &[Stretch],
        middles: &[Option<Middle>],
    ) -> Vec<Middle> {
        let own =
            |at: &Together, stretch: &Stretch| at.wanders2[stretch.of_air()] * growth(stretch.days);
        let begin = Together::begin(prior);
        let mut precision = begin.covariance.map_diagonal(|v| 1.0 / v);
        let mut matrix = Square::from_diagonal(&precision);
        precision.component_mul_assign(&begin.mean);
        let mut right = precision;
        for (stretch, middle) in stretches.iter().zip(middles) {
            let Some(middle) = middle else { continue };
            let drive = stretch.drive();
            let noise = own(self, stretch) + middle.variance;
            let rest = middle.cents - drive.dot(&self.mean);
            let counts = weight(rest * rest / noise) / noise;
            matrix += drive * drive.transpose() * counts;
            right += drive * middle.cents * counts;
        }
        self.covariance = matrix.try_inverse().unwrap_or(begin.covariance);
        self.mean = self.covariance * right;
        let mut sums = begin.wanders2.map(|v| (4.0 * v, 4.0));
        let mut common = Vec::with_capacity(stretches.len());
        for (stretch, middle) in stretches.iter().zip(middles) {
            let foreseen = stretch.drive().dot(&self.mean);
            let wanders = own(self, stretch);
            let Some(middle) = middle else {
                common.push(Middle {
                    cents: foreseen,
                    variance: wanders,
                });
                continue;
            };
            let rest = middle.cents - foreseen;
            let noise = wanders + middle.variance;
            let share = wanders / noise;
            let variance = share * middle.variance;
            let counts = weight(rest * rest / noise);
            let sum = &mut sums[stretch.of_air()];
            let line = (stretch.drive().transpose() * self.covariance * stretch.drive())[0];
            let said = (share * rest).powi(2) + variance + share * share * line;
            sum.0 += counts * said / growth(stretch.days);
            sum.1 += 1.0;
            common.push(Middle {
                cents: foreseen + share * rest,
                variance,
            });
        }
        self.wanders2 = sums.map(|(sum, count)| sum / count);
        common
    }
}
