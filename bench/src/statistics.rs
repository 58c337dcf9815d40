//! Percentiles, and how sure a figure is: the bootstrap.

use pluck::generator::Generator;

/// How often a sample is drawn anew.
pub const RESAMPLES: usize = 1000;
/// The seed of every redraw, so that equal data give equal intervals.
const SEED: u64 = 0xB007_57A9;

/// A figure and its 95 % interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// The figure from all the data.
    pub value: f64,
    /// The interval's lower end.
    pub low: f64,
    /// The interval's upper end.
    pub high: f64,
    /// How many items it was taken from.
    pub count: usize,
}

/// The statistic of all items, with its 95 % interval by redrawing the items with replacement [`RESAMPLES`] times.
///
/// The interval is the redraws' percentiles 2.5 and 97.5 (B. Efron, R. J. Tibshirani, *An Introduction to the Bootstrap*,
/// 1993, ch. 13). `None` where the statistic has no value for all items; redraws for which it has none are left out. A rate
/// of 0 or 1 has an interval of no width: see [`rule_of_three`].
pub fn estimate<T: Copy>(items: &[T], statistic: impl Fn(&[T]) -> Option<f64>) -> Option<Estimate> {
    let value = statistic(items)?;
    let count = u32::try_from(items.len()).ok()?;
    let mut draws = Generator::new(&[SEED, u64::from(count)]);
    let mut redrawn = items.to_vec();
    let mut values = Vec::with_capacity(RESAMPLES);
    for _ in 0..RESAMPLES {
        for place in &mut redrawn {
            *place = items[draws.below(count) as usize];
        }
        values.extend(statistic(&redrawn));
    }
    Some(Estimate {
        value,
        low: percentile(&values, 2.5)?,
        high: percentile(&values, 97.5)?,
        count: items.len(),
    })
}

/// The upper end of the 95 % interval of a rate that was never seen in `count` trials, 3 ÷ count
/// (J. A. Hanley, A. Lippman-Hand, "If nothing goes wrong, is everything all right?", *JAMA* 249(13), 1983).
///
/// ```
/// assert_eq!(bench::statistics::rule_of_three(1000), 0.003);
/// ```
pub fn rule_of_three(count: usize) -> f64 {
    (3.0 / count as f64).min(1.0)
}

/// Percentile `p` (0 to 100) of values in any order, linear between neighbours; `None` of no values.
///
/// Definition 7 of R. J. Hyndman, Y. Fan, "Sample quantiles in statistical packages", *The American Statistician* 50(4), 1996.
///
/// ```
/// assert_eq!(bench::statistics::percentile(&[4.0, 1.0, 2.0, 3.0], 50.0), Some(2.5));
/// ```
pub fn percentile(values: &[f64], p: f64) -> Option<f64> {
    let mut sorted = values.to_vec();
    let place = (sorted.len().checked_sub(1)?) as f64 * (p / 100.0).clamp(0.0, 1.0);
    let below = place.floor() as usize;
    let (_, &mut low, above) = sorted.select_nth_unstable_by(below, f64::total_cmp);
    let next = above.iter().copied().min_by(f64::total_cmp);
    Some(low + (place - below as f64) * (next.unwrap_or(low) - low))
}

/// The middle value; `None` of no values.
pub fn median(values: &[f64]) -> Option<f64> {
    percentile(values, 50.0)
}

/// The share, in per cent, of the items for which `is` holds; `None` of no items.
///
/// ```
/// assert_eq!(bench::statistics::per_cent(&[1, 2, 3, 4], |n| *n > 3), Some(25.0));
/// ```
pub fn per_cent<T>(items: &[T], is: impl Fn(&T) -> bool) -> Option<f64> {
    let held = items.iter().filter(|item| is(item)).count();
    (!items.is_empty()).then(|| 100.0 * held as f64 / items.len() as f64)
}

/// Root of the mean of the squares; `None` of no values.
pub fn root_mean_square(values: &[f64]) -> Option<f64> {
    let sum: f64 = values.iter().map(|v| v * v).sum();
    (!values.is_empty()).then(|| (sum / values.len() as f64).sqrt())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn percentiles_are_numpys() {
        // NumPy 2.4.6: numpy.percentile([15, 20, 35, 40, 50], p)
        let values = [50.0, 15.0, 40.0, 20.0, 35.0];
        for (p, expected) in [
            (0.0, 15.0),
            (5.0, 16.0),
            (40.0, 29.0),
            (50.0, 35.0),
            (95.0, 48.0),
            (100.0, 50.0),
        ] {
            let got = percentile(&values, p).unwrap();
            assert!((got - expected).abs() < 1e-12, "{p}: {got}");
        }
        assert_eq!(percentile(&[], 50.0), None);
        assert_eq!(percentile(&[7.0], 95.0), Some(7.0));
    }

    #[test]
    fn an_interval_of_a_mean_holds_the_truth_nineteen_times_in_twenty() {
        let mut draws = Generator::new(&[5, 7]);
        let trials = 400;
        let mut held = 0;
        for _ in 0..trials {
            let sample: Vec<f64> = (0..80).map(|_| 3.0 + draws.normal()).collect();
            let mean = |x: &[f64]| Some(x.iter().sum::<f64>() / x.len() as f64);
            let e = estimate(&sample, mean).unwrap();
            held += u32::from(e.low <= 3.0 && 3.0 <= e.high);
        }
        let rate = f64::from(held) / f64::from(trials);
        // Four standard deviations of the binomial, and the bootstrap's own small shortfall at 80 items.
        assert!((0.90..=0.985).contains(&rate), "{rate}");
    }

    #[test]
    fn the_interval_of_a_mean_is_as_wide_as_theory_says() {
        let mut draws = Generator::new(&[11]);
        let sample: Vec<f64> = (0..2000).map(|_| draws.normal()).collect();
        let mean = |x: &[f64]| Some(x.iter().sum::<f64>() / x.len() as f64);
        let e = estimate(&sample, mean).unwrap();
        let theory = 2.0 * 1.96 / 2000f64.sqrt();
        assert!(
            ((e.high - e.low) / theory - 1.0).abs() < 0.12,
            "{}",
            e.high - e.low
        );
    }

    #[test]
    fn equal_data_give_equal_intervals() {
        let data = [1.0, 2.0, 5.0, 9.0];
        let once = estimate(&data, median);
        assert_eq!(once, estimate(&data, median));
        assert_eq!(estimate(&[], |x: &[f64]| median(x)), None);
    }

    #[test]
    fn rates_and_roots() {
        assert_eq!(per_cent::<u8>(&[], |_| true), None);
        assert_eq!(
            root_mean_square(&[3.0, 4.0, 5.0, 0.0]),
            Some(12.5f64.sqrt())
        );
        assert_eq!(root_mean_square(&[]), None);
    }
}
