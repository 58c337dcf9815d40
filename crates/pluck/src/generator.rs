//! The random numbers behind every invented string: one stream per list of seeds, the same on every machine.
//!
//! The stream is the one NumPy's `default_rng` gives for the same list of integers, so that an independent
//! implementation of the same sounds can be held against this one draw by draw:
//!
//! - state: 128-bit linear congruential, output XSL-RR (M. E. O'Neill, "PCG: A Family of Simple Fast
//!   Space-Efficient Statistically Good Algorithms for Random Number Generation", Harvey Mudd College
//!   HMC-CS-2014-0905, 2014, §6.3.3), multiplier from the same author's reference code (MIT/Apache-2.0);
//! - whole numbers: multiply and reject (D. Lemire, "Fast Random Integer Generation in an Interval",
//!   *ACM Trans. Model. Comput. Simul.* 29(1), 2019, algorithm 5), on halves of 64-bit outputs, low half first;
//! - seeds: [`entropy`]; normal deviates: [`normal`].
//!
//! Which of these NumPy uses, and in which order, was read from NumPy's sources (BSD-3-Clause), from which no text is copied.

pub mod entropy;
pub mod normal;

use std::f64::consts::TAU;

const MULTIPLIER: u128 = 0x2360_ed05_1fc6_5da4_4385_df64_9fcc_f645;

/// A stream of draws; equal seeds give equal streams.
///
/// ```
/// let mut draws = pluck::generator::Generator::new(&[1, 2, 3, 4]);
/// // NumPy 2.4.6: default_rng([1, 2, 3, 4]).random()
/// assert_eq!(draws.unit(), 0.03022646584024391);
/// ```
#[derive(Clone, Debug)]
pub struct Generator {
    state: u128,
    increment: u128,
    kept_half: Option<u32>,
}

impl Generator {
    /// The stream that belongs to a list of seeds (any length; more seeds, more independent streams).
    #[must_use]
    pub fn new(seeds: &[u64]) -> Self {
        let [a, b, c, d] = entropy::words(seeds);
        let pair = |high: u64, low: u64| (u128::from(high) << 64) | u128::from(low);
        let mut fresh = Self {
            state: 0,
            increment: (pair(c, d) << 1) | 1,
            kept_half: None,
        };
        fresh.step();
        fresh.state = fresh.state.wrapping_add(pair(a, b));
        fresh.step();
        fresh
    }

    /// 64 random bits.
    pub fn bits(&mut self) -> u64 {
        self.step();
        let folded = ((self.state >> 64) as u64) ^ (self.state as u64);
        folded.rotate_right((self.state >> 122) as u32)
    }

    /// Uniform in 0 (included) to 1 (excluded), 53 bits.
    pub fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 * (1.0 / 9_007_199_254_740_992.0)
    }

    /// Uniform from `low` (included) to `high` (excluded but for rounding).
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Uniform angle in radians, 0 to 2π.
    pub fn angle(&mut self) -> f64 {
        self.between(0.0, TAU)
    }

    /// A whole number from 0 to `count` − 1; 0 where `count` is 0 or 1 (then nothing is drawn).
    pub fn below(&mut self, count: u32) -> u32 {
        if count < 2 {
            return 0;
        }
        let threshold = count.wrapping_neg() % count;
        loop {
            let product = u64::from(self.half()) * u64::from(count);
            if product as u32 >= threshold {
                return (product >> 32) as u32;
            }
        }
    }

    /// One of the given values; `None` of an empty list.
    pub fn pick<T: Copy>(&mut self, from: &[T]) -> Option<T> {
        let index = self.below(from.len() as u32) as usize;
        from.get(index).copied()
    }

    fn step(&mut self) {
        self.state = self
            .state
            .wrapping_mul(MULTIPLIER)
            .wrapping_add(self.increment);
    }

    /// 32 random bits: the low half of an output, then its high half.
    fn half(&mut self) -> u32 {
        if let Some(half) = self.kept_half.take() {
            return half;
        }
        let both = self.bits();
        self.kept_half = Some((both >> 32) as u32);
        both as u32
    }
}

#[cfg(test)]
mod tests {
    use super::Generator;

    #[test]
    fn mixed_draws_follow_numpy_in_order() {
        // NumPy 2.4.6, default_rng([1, 2, 3, 4]): random(), uniform(2, 5), integers(3, 6), choice([-1, 1]), random(),
        // choice([-1, 1]), normal(0, 2).
        let mut g = Generator::new(&[1, 2, 3, 4]);
        assert_eq!(g.unit(), 0.03022646584024391);
        assert_eq!(g.between(2.0, 5.0), 4.834289292519401);
        assert_eq!(3 + g.below(3), 4);
        assert_eq!(g.pick(&[-1, 1]), Some(-1));
        assert_eq!(g.unit(), 0.5055019078630406);
        assert_eq!(g.pick(&[-1, 1]), Some(-1));
        assert!((2.0 * g.normal() + 1.066211711058325).abs() < 1e-12);
    }

    #[test]
    fn an_empty_list_offers_nothing() {
        assert_eq!(Generator::new(&[7]).pick::<u8>(&[]), None);
    }
}
