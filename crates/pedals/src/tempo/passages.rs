//! Passages of a piece, each alone: too fast for one of them is too fast for the whole.
//!
//! A passage alone may begin in any setting and with rested feet, so it never loses more notes than
//! the same passage in the piece. Passages are short, and soon told.

use std::cell::Cell;

use crate::Feet;
use crate::code::{Code, SETTINGS};
use crate::problem::Problem;
use crate::solve::playable;

/// A passage, and how many notes it loses whatever the feet can do.
pub(crate) struct Passage<'a> {
    problem: Problem<'a>,
    lost: u64,
}

/// What each moment loses at least, in the setting that suits it best: how many notes at the price
/// of a lost one.
pub(crate) fn losses(problem: &Problem<'_>, price: u64) -> Vec<u64> {
    let least = problem.asked.iter().map(|asked| {
        let free = asked.pairs.is_empty();
        let settings = if free { 1 } else { SETTINGS };
        let prices = (0..settings as Code).map(|code| asked.price(code));
        prices.min().unwrap_or(0) / price.max(1)
    });
    least.collect()
}

/// The passages of so many moments; the second half of each is the first of the next.
pub(crate) fn passages<'a>(problem: &Problem<'a>, losses: &[u64], long: usize) -> Vec<Passage<'a>> {
    let starts = (0..losses.len()).step_by((long / 2).max(1));
    let passages = starts.map(|start| {
        let within = start..(start + long).min(losses.len());
        Passage {
            problem: Problem {
                at_us: problem.at_us[within.clone()].to_vec(),
                asked: problem.asked[within.clone()].to_vec(),
                prices: problem.prices[within.clone()].to_vec(),
                wishes: problem.wishes,
            },
            lost: losses[within].iter().sum(),
        }
    });
    passages.collect()
}

impl Passage<'_> {
    /// Whether it loses no more with these feet.
    pub(crate) fn plays(&self, feet: Feet, work: &Cell<u64>) -> bool {
        let wishes = self.problem.wishes;
        let below = (self.lost + 1) * wishes.weights.lost;
        playable(&self.problem, feet, below, work, false)
    }
}

/// Far apart first: the slowest of all is then met soon, and most others need one look only.
pub(crate) fn far_apart<T>(all: &[T]) -> impl Iterator<Item = &T> {
    let count = all.len();
    let shares =
        |step: usize| (2..=step).any(|d| step.is_multiple_of(d) && count.is_multiple_of(d));
    let about = (count * 5).div_ceil(8).max(1);
    let step = (about..=about + count)
        .find(|&step| !shares(step))
        .unwrap_or(1);
    (0..count).map(move |place| &all[place * step % count])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_is_visited_once() {
        for count in 0..100 {
            let all: Vec<usize> = (0..count).collect();
            let mut seen: Vec<usize> = far_apart(&all).copied().collect();
            seen.sort_unstable();
            assert_eq!(seen, all);
        }
    }
}
