//! How far strings moved by themselves, month by month: of the whole harp, and of each octave.

use std::collections::BTreeMap;

use diary::HarpKnown;
use harp::Harp;
use pitch::harp_octave;

/// The moves of a month. Half of them lie between the two quartiles.
#[derive(Clone, Debug, PartialEq)]
pub struct Month {
    /// The month in UTC in which the strings were found, `2026-11`.
    pub month: String,
    /// The harp's own number of the octave; `None` for the whole harp.
    pub octave: Option<i32>,
    /// The middle of the moves, cents; up is above nought.
    pub median_cents: f64,
    /// The lower quartile, cents.
    pub lower_cents: f64,
    /// The upper quartile, cents.
    pub upper_cents: f64,
    /// How many moves there were.
    pub moves: usize,
}

/// Every month in which a string was found after it had been left: first the whole harp's, then each octave's from the top;
/// each by time. Moves are those of [`diary::StringKnown::moves`].
pub fn months(harp: &Harp, known: &HarpKnown) -> Vec<Month> {
    let mut all: BTreeMap<(Option<i32>, String), Vec<f64>> = BTreeMap::new();
    for string in harp.strings() {
        let octave = harp_octave(string.name.letter, string.name.octave);
        let moves = known.strings.get(&string.name).map(|own| own.moves());
        for moved in moves.into_iter().flatten().filter(|m| m.cents.is_finite()) {
            let month: String = moved.to.to_string().chars().take(7).collect();
            let mut put = |octave| {
                all.entry((octave, month.clone()))
                    .or_default()
                    .push(moved.cents);
            };
            put(None);
            put(Some(octave));
        }
    }
    let months = all.into_iter();
    months.filter_map(|(key, cents)| of(key, cents)).collect()
}

fn of((octave, month): (Option<i32>, String), mut cents: Vec<f64>) -> Option<Month> {
    cents.sort_by(f64::total_cmp);
    Some(Month {
        month,
        octave,
        median_cents: quantile(&cents, 0.5)?,
        lower_cents: quantile(&cents, 0.25)?,
        upper_cents: quantile(&cents, 0.75)?,
        moves: cents.len(),
    })
}

/// A quantile of figures in order, straight between the two beside it: definition 7 of R. J. Hyndman and Y. Fan, Sample
/// Quantiles in Statistical Packages, The American Statistician 50 (1996) 361.
fn quantile(figures: &[f64], share: f64) -> Option<f64> {
    let at = share * figures.len().checked_sub(1)? as f64;
    let (below, part) = (at.floor(), at.fract());
    let low = figures.get(below as usize)?;
    let high = figures.get(at.ceil() as usize)?;
    Some(low + part * (high - low))
}

#[cfg(test)]
mod tests {
    use super::*;

    // R 4: quantile(c(1, 2, 4, 8), c(.25, .5, .75), type = 7) is 1.75 3.00 5.00 (worked by hand: positions 0.75, 1.5, 2.25)
    #[test]
    fn quartiles_lie_straight_between_their_neighbours() {
        let figures = [1.0, 2.0, 4.0, 8.0];
        let shares = [0.25, 0.5, 0.75].map(|share| quantile(&figures, share));
        assert_eq!(shares, [Some(1.75), Some(3.0), Some(5.0)]);
        assert_eq!(quantile(&[7.0], 0.25), Some(7.0));
        assert_eq!(quantile(&[], 0.5), None);
    }
}
