//! A share of some, and how sure it is.

/// So many of so many, with an interval.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Share {
    /// How many.
    pub count: usize,
    /// Of how many.
    pub of: usize,
    /// The lower end of the 95 % interval, 0 to 1.
    pub lower: f64,
    /// The upper end of the 95 % interval, 0 to 1.
    pub upper: f64,
}

/// Of a normal law 95 % lie within so many standard deviations.
const Z: f64 = 1.959_963_984_540_054;

impl Share {
    /// With the score interval of E. B. Wilson, Probable Inference, the Law of Succession, and Statistical Inference, Journal
    /// of the American Statistical Association 22 (1927) 209–212. `None` of none, and of fewer than were counted.
    pub fn of(count: usize, of: usize) -> Option<Share> {
        if of == 0 || count > of {
            return None;
        }
        let (k, n) = (count as f64, of as f64);
        let middle = (k + Z * Z / 2.0) / (n + Z * Z);
        let half = Z / (n + Z * Z) * (k * (n - k) / n + Z * Z / 4.0).sqrt();
        // exactly nought and one where none and all were counted, which rounding may miss
        let lower = if count == 0 { 0.0 } else { middle - half };
        let upper = if count == of { 1.0 } else { middle + half };
        Some(Share {
            count,
            of,
            lower,
            upper,
        })
    }

    /// The share itself, 0 to 1.
    pub fn share(&self) -> f64 {
        self.count as f64 / self.of as f64
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    // R. G. Newcombe, Statistics in Medicine 17 (1998) 857–872, Table I, the score method without continuity correction;
    // from memory
    #[test]
    fn intervals_are_those_of_the_published_table() {
        for (count, of, lower, upper) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let share = Share::of(count, of).unwrap();
            assert!((share.lower - lower).abs() < 5e-5, "{share:?}");
            assert!((share.upper - upper).abs() < 5e-5, "{share:?}");
        }
        assert_eq!((Share::of(0, 0), Share::of(3, 2)), (None, None));
    }

    // the interval holds exactly the shares that lie within so many of their own standard deviations: Wilson's definition
    #[test]
    fn its_ends_are_the_shares_from_which_the_count_lies_just_so_far() {
        for of in 1..60usize {
            for count in 0..=of {
                let share = Share::of(count, of).unwrap();
                for end in [share.lower, share.upper] {
                    let far = (share.share() - end).abs();
                    let own = Z * (end * (1.0 - end) / of as f64).sqrt();
                    assert!((far - own).abs() < 1e-9, "{share:?}");
                }
                let other = Share::of(of - count, of).unwrap();
                assert!((share.lower - (1.0 - other.upper)).abs() < 1e-12);
            }
        }
    }
}
