//! The strings of one kind, learned by turns: what they do together, what each does beside it.

use crate::own::{Apart, Own, OwnMove, own_drive};
use crate::prior::Prior;
use crate::stretches::{Moved, Stretches};
use crate::student::weight;
use crate::together::{Middle, Together};

/// Turns after which nothing changes that matters.
const TURNS: usize = 6;

/// A kind.
#[derive(Clone, Debug)]
pub(crate) struct Class {
    pub(crate) together: Together,
    pub(crate) apart: Apart,
}

/// Learns the strings for which `is_own` holds, into `own`.
pub(crate) fn learn_class(
    prior: &Prior,
    stretches: &Stretches,
    own: &mut [Own],
    is_own: impl Fn(usize) -> bool,
) -> Class {
    let mut class = Class {
        together: Together::begin(prior),
        apart: Apart::begin(prior),
    };
    let begin = class.apart.own();
    let places: Vec<usize> = (0..own.len()).filter(|at| is_own(*at)).collect();
    for at in &places {
        own[*at] = begin.clone();
    }
    let moved: Vec<&Moved> = stretches
        .moved
        .iter()
        .filter(|one| is_own(one.string))
        .collect();
    if moved.is_empty() {
        return class;
    }
    for _ in 0..TURNS {
        let middles = middles(stretches, &moved, own, &class.together);
        let common = class.together.learn(prior, &stretches.all, &middles);
        let mut moves: Vec<Vec<OwnMove>> = vec![Vec::new(); own.len()];
        for one in &moved {
            let (stretch, common) = (&stretches.all[one.stretch], common[one.stretch]);
            moves[one.string].push(OwnMove {
                drive: own_drive(&stretch.drive(), one.turned, one.aged),
                cents: one.cents - common.cents,
                variance: one.read + common.variance,
                growth: one.growth,
            });
        }
        let mut asked = Vec::new();
        for at in &places {
            asked.push(own[*at].learn(&class.apart, &moves[*at]));
        }
        let all: Vec<_> = places.iter().map(|at| &own[*at]).zip(asked).collect();
        class.apart.learn(prior, &all);
    }
    class
}

/// What the strings did together in each stretch, what each does by itself taken off; wild ones count less.
fn middles(
    stretches: &Stretches,
    moved: &[&Moved],
    own: &[Own],
    together: &Together,
) -> Vec<Option<Middle>> {
    let mut all: Vec<Vec<(f64, f64)>> = vec![Vec::new(); stretches.all.len()];
    for one in moved {
        let drive = own_drive(&stretches.all[one.stretch].drive(), one.turned, one.aged);
        let string = &own[one.string];
        let unsure = (drive.transpose() * string.covariance * drive)[0];
        let noise = string.wanders2 * one.growth + one.read + unsure;
        all[one.stretch].push((one.cents - drive.dot(&string.mean), noise));
    }
    let middle = |(at, all): (usize, &Vec<(f64, f64)>)| {
        let mut sorted: Vec<f64> = all.iter().map(|one| one.0).collect();
        sorted.sort_by(f64::total_cmp);
        let mut middle = match sorted.len() {
            0 => return None,
            1 | 2 => stretches.all[at].drive().dot(&together.mean),
            many => sorted[many / 2],
        };
        let mut variance = f64::INFINITY;
        for _ in 0..3 {
            let (mut sum, mut counts) = (0.0, 0.0);
            for (cents, noise) in all {
                let counted = weight((cents - middle).powi(2) / noise) / noise;
                sum += counted * cents;
                counts += counted;
            }
            middle = sum / counts;
            variance = 1.0 / counts;
        }
        Some(Middle {
            cents: middle,
            variance,
        })
    };
    all.iter().enumerate().map(middle).collect()
}
