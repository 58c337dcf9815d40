//! From which size on an ear tells high from low.

use std::ops::RangeInclusive;

/// Sizes that are asked, cents.
pub const SIZES_CENTS: RangeInclusive<f64> = 0.5..=100.0;
/// Thresholds that are thought of, each so many times the one before, from 0.3 cents to some 200.
const THRESHOLDS: usize = 80;
const FIRST: f64 = 0.3;
const STEP: f64 = 1.086;
/// How steeply answers grow surer with the size.
const SLOPES: [f64; 8] = [0.7, 0.9, 1.15, 1.5, 1.9, 2.4, 3.1, 4.0];
/// One answer in fifty is a slip of the finger.
const SLIPS: f64 = 0.02;
/// Before any answer: a threshold of 20 cents, two thirds of all people between a third of that and three times it. Wide,
/// about what listeners without and with music were found to tell: 38 and 10 cents at 528 Hz (C. Arndt, K. Schlemmer &
/// E. van der Meer, *Exp. Brain Res.* 238 (2020) 247–258).
const USUAL_CENTS: f64 = 20.0;
const SPREAD: f64 = 1.1;

/// What is known of an ear from its answers: at each a tone or string was so many cents high or low, and it said which.
///
/// The next size is the one whose answer is expected to tell most, and the threshold's interval comes from the same
/// probabilities (L. L. Kontsevich & C. W. Tyler, *Vision Res.* 39 (1999) 2729–2737, from memory). How often an answer is
/// right grows as ½ + (½ − slips)·(1 − exp(−(size ÷ threshold)^slope)): the threshold is the size at which about four
/// answers in five are.
///
/// ```
/// let mut ear = tuning::practice::Threshold::default();
/// for _ in 0..30 {
///     let size = ear.next_cents();
///     ear.answer(size, size > 8.0); // right above eight cents, wrong below
/// }
/// let found = ear.estimate();
/// assert!(found.lower_cents < 8.0 && 8.0 < found.upper_cents);
/// ```
#[derive(Clone, Debug, PartialEq)]
pub struct Threshold {
    /// How likely each threshold with each slope is; they add up to one.
    likely: Vec<f64>,
    answers: usize,
}

/// A threshold as far as it is known, cents.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate {
    /// As likely below as above.
    pub cents: f64,
    /// The lower end of the 95 % interval.
    pub lower_cents: f64,
    /// The upper end of the 95 % interval.
    pub upper_cents: f64,
}

impl Default for Threshold {
    /// Before any answer.
    fn default() -> Threshold {
        let usual = |threshold: f64| {
            let far = (threshold / USUAL_CENTS).ln() / SPREAD;
            (-0.5 * far * far).exp()
        };
        let mut ear = Threshold {
            likely: pairs().map(|(threshold, _)| usual(threshold)).collect(),
            answers: 0,
        };
        ear.add_up_to_one();
        ear
    }
}

impl Threshold {
    /// How many answers were given.
    pub fn answers(&self) -> usize {
        self.answers
    }

    /// The size to ask next, cents, of [`SIZES_CENTS`]; whether high or low is for whoever asks to draw.
    pub fn next_cents(&self) -> f64 {
        let left = sizes().map(|size| (size, self.expected_left(size)));
        let best = left.min_by(|a, b| a.1.total_cmp(&b.1));
        best.map_or(USUAL_CENTS, |(size, _)| size)
    }

    /// Takes in whether an answer was right, at a size in cents, above nought.
    pub fn answer(&mut self, size_cents: f64, right: bool) {
        for (likely, (threshold, slope)) in self.likely.iter_mut().zip(pairs()) {
            let p = right_at(size_cents, threshold, slope);
            *likely *= if right { p } else { 1.0 - p };
        }
        self.answers += 1;
        self.add_up_to_one();
    }

    /// The threshold and its interval.
    pub fn estimate(&self) -> Estimate {
        let each = self.likely.chunks(SLOPES.len()).map(|of| of.iter().sum());
        let each: Vec<f64> = each.collect();
        Estimate {
            cents: below(&each, 0.5),
            lower_cents: below(&each, 0.025),
            upper_cents: below(&each, 0.975),
        }
    }

    fn add_up_to_one(&mut self) {
        let sum: f64 = self.likely.iter().sum();
        self.likely.iter_mut().for_each(|likely| *likely /= sum);
    }

    /// How much is expected to stay unknown once an answer at this size is known (entropy, natural units).
    fn expected_left(&self, size: f64) -> f64 {
        let mut right = (0.0, 0.0);
        let mut wrong = (0.0, 0.0);
        for (likely, (threshold, slope)) in self.likely.iter().zip(pairs()) {
            let p = right_at(size, threshold, slope);
            for (sum, joint) in [(&mut right, likely * p), (&mut wrong, likely * (1.0 - p))] {
                sum.0 += joint;
                sum.1 -= joint * joint.max(f64::MIN_POSITIVE).ln();
            }
        }
        // the sum of p ln p of what is divided by its own sum, times that sum
        let left = |(sum, of): (f64, f64)| of + sum * sum.max(f64::MIN_POSITIVE).ln();
        left(right) + left(wrong)
    }
}

/// How likely an answer is right.
fn right_at(size: f64, threshold: f64, slope: f64) -> f64 {
    0.5 + (0.5 - SLIPS) * (1.0 - (-(size / threshold).powf(slope)).exp())
}

fn threshold(at: f64) -> f64 {
    FIRST * STEP.powf(at)
}

fn pairs() -> impl Iterator<Item = (f64, f64)> {
    let thresholds = (0..THRESHOLDS).map(|at| threshold(at as f64));
    thresholds.flat_map(|threshold| SLOPES.map(|slope| (threshold, slope)))
}

/// Sizes that may be asked: each a sixth more than the one before.
fn sizes() -> impl Iterator<Item = f64> {
    let (least, most) = (*SIZES_CENTS.start(), *SIZES_CENTS.end());
    let further = |size: &f64| Some(size * 1.17);
    std::iter::successors(Some(least), further).take_while(move |size| *size <= most)
}

/// The threshold below which a share of what is likely lies, each taken to be spread evenly about its place.
fn below(each: &[f64], share: f64) -> f64 {
    let mut sum = 0.0;
    for (at, likely) in each.iter().enumerate() {
        if sum + likely >= share {
            let within = (share - sum) / likely.max(f64::MIN_POSITIVE);
            return threshold(at as f64 - 0.5 + within);
        }
        sum += likely;
    }
    threshold(each.len() as f64)
}

#[cfg(test)]
mod tests {
    use super::*;

    // by hand: at the threshold 1 − 1/e of the way from a half to all but the slips; from nothing one answer in two
    #[test]
    fn an_answer_is_right_as_often_as_the_law_says() {
        let at = right_at(7.0, 7.0, 2.4);
        assert!(
            (at - (0.5 + 0.48 * (1.0 - (-1.0f64).exp()))).abs() < 1e-12,
            "{at}"
        );
        assert!((right_at(1e-9, 7.0, 1.5) - 0.5).abs() < 1e-9);
        assert!((right_at(1e9, 7.0, 1.5) - 0.98).abs() < 1e-9);
    }

    #[test]
    fn before_any_answer_it_knows_what_is_usual_and_asks_where_that_may_lie() {
        let ear = Threshold::default();
        let told = ear.estimate();
        assert!((told.cents / USUAL_CENTS - 1.0).abs() < 0.05, "{told:?}");
        assert!(
            told.lower_cents < 3.0 && told.upper_cents > 120.0,
            "{told:?}"
        );
        assert!(
            (5.0..80.0).contains(&ear.next_cents()),
            "{}",
            ear.next_cents()
        );
    }
}
