//! The middle of some figures and how far they lie from it, untroubled by a few that are wild.

/// The median, and the standard deviation that normal figures of the same spread would have.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Spread {
    pub(crate) middle: f64,
    pub(crate) sd: f64,
    pub(crate) count: usize,
}

/// The median of normal figures is by so much less sure than their mean: √(π/2).
const MEDIAN: f64 = 1.2533;
/// The median distance from the middle over the standard deviation, for normal figures: 1/Φ⁻¹(3/4).
const DISTANCE: f64 = 1.4826;

impl Spread {
    /// Of figures that are numbers; `None` where there is none.
    pub(crate) fn of(figures: impl IntoIterator<Item = f64>) -> Option<Spread> {
        let mut all: Vec<f64> = figures.into_iter().filter(|f| f.is_finite()).collect();
        let middle = median(&mut all)?;
        let mut away: Vec<f64> = all.iter().map(|figure| (figure - middle).abs()).collect();
        Some(Spread {
            middle,
            sd: DISTANCE * median(&mut away)?,
            count: all.len(),
        })
    }

    /// The standard error of the middle, with a standard deviation that is at least `least`.
    pub(crate) fn error(&self, least: f64) -> f64 {
        MEDIAN * self.sd.max(least) / (self.count as f64).sqrt()
    }
}

/// The median; the figures are put in order.
pub(crate) fn median(figures: &mut [f64]) -> Option<f64> {
    figures.sort_by(f64::total_cmp);
    let (low, high) = (figures.len().saturating_sub(1) / 2, figures.len() / 2);
    Some((figures.get(low)? + figures.get(high)?) / 2.0)
}

#[cfg(test)]
mod tests {
    use super::*;

    // by hand: 1 2 3 4 100 has the middle 3 and the distances 2 1 0 1 97, whose middle is 1
    #[test]
    fn one_wild_figure_moves_nothing() {
        let spread = Spread::of([4.0, 1.0, 100.0, 3.0, 2.0, f64::NAN]).unwrap();
        assert_eq!((spread.middle, spread.count), (3.0, 5));
        assert!((spread.sd - 1.4826).abs() < 1e-12);
        assert_eq!(Spread::of([2.0, 4.0]).unwrap().middle, 3.0);
        assert_eq!(Spread::of([]), None);
    }
}
