//! How far strings come back elsewhere of themselves: the return test.

use std::collections::BTreeMap;

use harp::StringName;
use pitch::Alteration;

use super::Pluck;

/// The unrest of all strings together counts for a single one as much as so many returns of its own.
const OTHERS: f64 = 3.0;
/// Student's t that leaves 2.5 % above, for 1 to 10 degrees of freedom: NIST/SEMATECH e-Handbook of
/// Statistical Methods, section 1.3.6.7.2 (from memory).
const T: [f64; 10] = [
    12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228,
];
const T_OF_MANY: f64 = 1.96;

/// What a string's unrest adds to every pluck of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Own {
    pub(super) sd_cents: f64,
    /// Half of a 95 % interval, over the standard deviation, as far as that is known.
    pub(super) t: f64,
}

/// The unrest of each string of a check.
pub(super) struct Unrest {
    by_string: BTreeMap<StringName, (f64, f64)>,
    /// Square cents, and the degrees of freedom they are known by; `None` if nothing was played again.
    together: Option<(f64, f64)>,
}

impl Unrest {
    /// Of all strings: what plucks in one position differ by beyond their own intervals.
    pub(super) fn of(plucks: &BTreeMap<StringName, Vec<Pluck>>) -> Self {
        let by_string: BTreeMap<StringName, (f64, f64)> = plucks
            .iter()
            .map(|(&string, plucks)| (string, spread(plucks)))
            .collect();
        let (squares, freedom) = by_string
            .values()
            .fold((0.0, 0.0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
        Unrest {
            by_string,
            together: (freedom > 0.0).then_some((squares / freedom, freedom)),
        }
    }

    /// Of one string: its own returns, and those of all others for what they are worth.
    pub(super) fn of_string(&self, string: StringName) -> Own {
        let Some((together, freedom)) = self.together else {
            return Own::default();
        };
        let (squares, own) = self.by_string.get(&string).copied().unwrap_or_default();
        let others = OTHERS.min(freedom);
        let variance = (squares + others * together) / (own + others);
        Own {
            sd_cents: variance.max(0.0).sqrt(),
            t: student(own + others),
        }
    }
}

/// The widest difference between a string's plucks in one position; `None` without a return.
pub(super) fn widest(plucks: &[Pluck]) -> Option<f64> {
    positions(plucks)
        .filter(|here| here.len() > 1)
        .map(|here| {
            let cents = here.iter().map(|pluck| pluck.off_cents);
            let (low, high) = cents.fold((f64::MAX, f64::MIN), |(low, high), cents| {
                (low.min(cents), high.max(cents))
            });
            high - low
        })
        .max_by(f64::total_cmp)
}

/// The sum of squares beyond what the plucks' own intervals account for, and its degrees of freedom.
fn spread(plucks: &[Pluck]) -> (f64, f64) {
    positions(plucks).fold((0.0, 0.0), |(squares, freedom), here| {
        let count = here.len() as f64;
        let mean = here.iter().map(|pluck| pluck.off_cents).sum::<f64>() / count;
        let found = here.iter().map(|pluck| (pluck.off_cents - mean).powi(2));
        let expected = here.iter().map(|pluck| (pluck.u95_cents / 1.96).powi(2));
        let expected = expected.sum::<f64>() * (count - 1.0) / count;
        (
            squares + (found.sum::<f64>() - expected).max(0.0),
            freedom + count - 1.0,
        )
    })
}

fn positions(plucks: &[Pluck]) -> impl Iterator<Item = Vec<&Pluck>> {
    let all = [Alteration::Flat, Alteration::Natural, Alteration::Sharp];
    all.into_iter()
        .map(|stands| plucks.iter().filter(|p| p.stands == stands).collect())
        .filter(|here: &Vec<&Pluck>| !here.is_empty())
}

fn student(freedom: f64) -> f64 {
    let known = (freedom.floor() as usize).checked_sub(1);
    known
        .and_then(|place| T.get(place))
        .copied()
        .unwrap_or(if freedom < 1.0 { T[0] } else { T_OF_MANY })
}
