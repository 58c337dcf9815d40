//! The middle of some figures, and how sure it is.

use crate::spread::median;

/// A median with an interval that asks for no law of the figures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Middle {
    /// The median, in the figures' own unit.
    pub middle: f64,
    /// The ends of an interval that holds the true median at least 95 times in 100; `None` of fewer than six figures, of
    /// which there is none.
    pub interval: Option<(f64, f64)>,
    /// How many figures there are.
    pub of: usize,
}

impl Middle {
    /// Of figures in any order; what is no number is left out. `None` of none.
    ///
    /// The interval goes from the k-th smallest to the k-th largest, k as large as the binomial law with one half allows
    /// (M. J. Campbell & M. J. Gardner, British Medical Journal 296 (1988) 1454–1456, from memory).
    pub fn of(figures: impl IntoIterator<Item = f64>) -> Option<Middle> {
        let mut figures: Vec<f64> = figures.into_iter().filter(|f| f.is_finite()).collect();
        let middle = median(&mut figures)?;
        let of = figures.len();
        let at = |place: usize| figures.get(place).copied();
        let interval = rank(of).and_then(|k| Some((at(k - 1)?, at(of - k)?)));
        Some(Middle {
            middle,
            interval,
            of,
        })
    }
}

/// The largest k, from 1, for which fewer than k of so many tosses of a coin are heads at most once in 40.
fn rank(of: usize) -> Option<usize> {
    // logarithms: one half to the power of a thousand is nothing
    let mut ln_p = -(of as f64) * std::f64::consts::LN_2;
    let mut sum = 0.0;
    let mut k = 0;
    while k <= of / 2 {
        sum += ln_p.exp();
        if sum > 0.025 {
            break;
        }
        ln_p += ((of - k) as f64 / (k + 1) as f64).ln();
        k += 1;
    }
    (k > 0).then_some(k)
}

#[cfg(test)]
mod tests {
    use super::*;

    // ranks of the table in D. G. Altman et al., Statistics with Confidence (2000), for medians at 95 %, from memory:
    // 6 (1, 6), 10 (2, 9), 20 (6, 15), 30 (10, 21), 50 (18, 33), 100 (40, 61). By hand for 6: 2 · ½⁶ = 3.1 %; for 5 it
    // would be 6.3 %
    #[test]
    fn ranks_are_those_of_the_published_table() {
        let table = [(6, 1), (10, 2), (20, 6), (30, 10), (50, 18), (100, 40)];
        for (of, k) in table {
            assert_eq!(rank(of), Some(k), "{of}");
        }
        assert_eq!((rank(0), rank(1), rank(5)), (None, None, None));
    }

    // worked by hand
    #[test]
    fn the_middle_of_an_even_number_lies_between_two() {
        let four = Middle::of([8.0, 1.0, f64::NAN, 4.0, 2.0]).unwrap();
        assert_eq!((four.middle, four.interval, four.of), (3.0, None, 4));
        let ten = Middle::of((1..=10).map(f64::from)).unwrap();
        assert_eq!((ten.middle, ten.interval), (5.5, Some((2.0, 9.0))));
        assert_eq!(Middle::of([f64::INFINITY]), None);
    }

    #[test]
    fn many_figures_have_an_interval_too() {
        // 10,000 ± 1.96 · √10,000 / 2 about the middle
        let many = Middle::of((0..10_000).map(f64::from)).unwrap();
        let (lower, upper) = many.interval.unwrap();
        assert!((lower - 4901.0).abs() < 3.0 && (upper - 5098.0).abs() < 3.0);
    }
}
