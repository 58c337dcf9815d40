//! Draws from a seed that whoever asks brings along.

/// A stream of draws; equal seeds give equal streams.
///
/// SplitMix64 (G. L. Steele, D. Lea & C. H. Flood, OOPSLA 2014); the seed comes from a source of chance outside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Draws(u64);

impl Draws {
    pub(crate) fn new(seed: u64) -> Draws {
        Draws(seed)
    }

    pub(crate) fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// From 0 (included) to 1 (excluded).
    pub(crate) fn unit(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / 9_007_199_254_740_992.0
    }

    pub(crate) fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    pub(crate) fn coin(&mut self) -> bool {
        self.bits() >> 63 == 1
    }

    /// A place below `count`; 0 where there is none.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        (self.unit() * count as f64) as usize
    }

    pub(crate) fn pick<T: Copy>(&mut self, from: &[T]) -> Option<T> {
        from.get(self.below(from.len())).copied()
    }

    /// Every order as likely as any other (R. Durstenfeld, Comm. ACM 7 (1964) 420).
    pub(crate) fn shuffle<T>(&mut self, all: &mut [T]) {
        for last in (1..all.len()).rev() {
            all.swap(last, self.below(last + 1));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // the first draws of seed 1234567 in the reference implementation (S. Vigna, splitmix64.c; values from memory)
    #[test]
    fn draws_are_those_of_the_reference() {
        let mut draws = Draws::new(1_234_567);
        let first: Vec<u64> = (0..3).map(|_| draws.bits()).collect();
        assert_eq!(
            first,
            [
                6_457_827_717_110_365_317,
                3_203_168_211_198_807_973,
                9_817_491_932_198_370_423
            ]
        );
    }

    #[test]
    fn coins_fall_either_way_and_orders_differ() {
        let mut draws = Draws::new(5);
        let heads = (0..10_000).filter(|_| draws.coin()).count();
        // five standard deviations of a fair coin
        assert!((4_750..5_250).contains(&heads), "{heads}");
        let mut all: Vec<usize> = (0..20).collect();
        draws.shuffle(&mut all);
        assert_ne!(all, (0..20).collect::<Vec<_>>());
        all.sort_unstable();
        assert_eq!(all, (0..20).collect::<Vec<_>>());
    }
}
