//! From a list of seeds to 256 well-mixed bits.
//!
//! The pool-and-hash construction of M. E. O'Neill ("Developing a seed_seq Alternative", 2015, code under the MIT
//! licence), with the pool of four words and the constants that NumPy's `SeedSequence` uses. A seed below 2³² is one
//! word, a larger one two words, low word first.

const POOL: usize = 4;
const START_IN: u32 = 0x43b0_d7e5;
const FACTOR_IN: u32 = 0x931e_8875;
const START_OUT: u32 = 0x8b51_f9dd;
const FACTOR_OUT: u32 = 0x58f3_8ded;
const MIX_KEPT: u32 = 0xca01_f9dd;
const MIX_NEW: u32 = 0x4973_f715;

/// The four 64-bit words that start a generator: state (high, low), then stream (high, low).
///
/// ```
/// // NumPy 2.4.6: SeedSequence([1, 2, 3, 4]).generate_state(4, uint64)
/// assert_eq!(pluck::generator::entropy::words(&[1, 2, 3, 4])[0], 0xd4a8_01ec_fd6d_ff8b);
/// ```
#[must_use]
pub fn words(seeds: &[u64]) -> [u64; 4] {
    let pool = pool(&split(seeds));
    let mut hash = Hash {
        factor: START_OUT,
        step: FACTOR_OUT,
    };
    let mut out = [0; 4];
    for (word, halves) in out.iter_mut().zip([[0, 1], [2, 3], [0, 1], [2, 3]]) {
        let [low, high] = halves.map(|i| u64::from(hash.of(pool[i])));
        *word = (high << 32) | low;
    }
    out
}

fn split(seeds: &[u64]) -> Vec<u32> {
    let mut words = Vec::with_capacity(2 * seeds.len());
    for &seed in seeds {
        words.push(seed as u32);
        if seed >> 32 != 0 {
            words.push((seed >> 32) as u32);
        }
    }
    words
}

fn pool(entropy: &[u32]) -> [u32; POOL] {
    let mut hash = Hash {
        factor: START_IN,
        step: FACTOR_IN,
    };
    let mut pool = [0; POOL];
    for (i, word) in pool.iter_mut().enumerate() {
        *word = hash.of(entropy.get(i).copied().unwrap_or(0));
    }
    for from in 0..POOL {
        for to in (0..POOL).filter(|&to| to != from) {
            pool[to] = mix(pool[to], hash.of(pool[from]));
        }
    }
    for &extra in entropy.iter().skip(POOL) {
        for word in &mut pool {
            *word = mix(*word, hash.of(extra));
        }
    }
    pool
}

struct Hash {
    factor: u32,
    step: u32,
}

impl Hash {
    fn of(&mut self, value: u32) -> u32 {
        let value = value ^ self.factor;
        self.factor = self.factor.wrapping_mul(self.step);
        let value = value.wrapping_mul(self.factor);
        value ^ (value >> 16)
    }
}

fn mix(kept: u32, new: u32) -> u32 {
    let mixed = MIX_KEPT
        .wrapping_mul(kept)
        .wrapping_sub(MIX_NEW.wrapping_mul(new));
    mixed ^ (mixed >> 16)
}

#[cfg(test)]
mod tests {
    use super::words;

    fn check(seeds: &[u64], expected: [u64; 4]) {
        assert_eq!(words(seeds), expected, "{seeds:?}");
    }

    #[test]
    fn seeds_give_numpys_words() {
        // NumPy 2.4.6: SeedSequence([…]).generate_state(4, uint64)
        check(
            &[1, 2, 3, 4],
            [
                0xd4a8_01ec_fd6d_ff8b,
                0x0fc9_d615_18a0_c9dc,
                0xf49d_c889_6c8e_0218,
                0x018d_b3e1_c647_50ab,
            ],
        );
        check(
            &[0],
            [
                0xdb2c_d7e7_b0f4_78be,
                0xabf4_641a_2c71_ba49,
                0x20c6_ed6d_9d7b_8d41,
                0x2c40_99de_223c_39d4,
            ],
        );
        check(
            &[(1 << 40) + 7, 3],
            [
                0x7364_3c48_d1eb_e910,
                0x5580_9259_283a_89c6,
                0xd4a7_5cdb_e124_ba1f,
                0x7f97_c80e_de43_d12f,
            ],
        );
        check(
            &[1, 2, 3, 4, 5, 1 << 33],
            [
                0xcf12_c962_7156_863a,
                0xf54e_9527_874f_d255,
                0x481d_4a1d_6c18_4c84,
                0xed73_53ba_9ea9_5243,
            ],
        );
    }
}
