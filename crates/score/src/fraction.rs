//! Exact times: fractions of a quarter note, so that triplets against quavers meet where they should.

use std::cmp::Ordering;
use std::fmt;

/// A reduced fraction with a positive denominator. Every sum that does not fit in 64 bits is
/// `None`: a score that needs one is damaged.
///
/// ```
/// use score::Fraction;
/// let third = Fraction::new(1, 3);
/// let half = Fraction::new(2, 4);
/// let sum = third.zip(half).and_then(|(a, b)| a.plus(b));
/// assert_eq!(sum.map(|sum| sum.to_string()), Some("5/6".to_owned()));
/// ```
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct Fraction {
    numerator: i64,
    denominator: i64,
}

impl Fraction {
    /// Nought.
    pub const ZERO: Self = Self::whole(0);
    /// One quarter note.
    pub const ONE: Self = Self::whole(1);

    /// A whole number of quarters.
    pub const fn whole(numerator: i64) -> Self {
        Self {
            numerator,
            denominator: 1,
        }
    }

    /// `numerator / denominator`, reduced; `None` where the denominator is nought or the reduced
    /// fraction does not fit.
    pub fn new(numerator: i64, denominator: i64) -> Option<Self> {
        Self::reduced(i128::from(numerator), i128::from(denominator))
    }

    /// A decimal number as MusicXML writes it (`3`, `0.5`, `-12.25`), exactly; `None` for anything
    /// else, or for more than 18 digits.
    ///
    /// ```
    /// assert_eq!(score::Fraction::decimal("0.75"), score::Fraction::new(3, 4));
    /// ```
    pub fn decimal(text: &str) -> Option<Self> {
        let text = text.trim();
        let (negative, digits) = match text.strip_prefix('-') {
            Some(digits) => (true, digits),
            None => (false, text.strip_prefix('+').unwrap_or(text)),
        };
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let part = part.trim_end_matches('0');
        let count = whole.len() + part.len();
        let all = || whole.bytes().chain(part.bytes());
        let some = digits.bytes().any(|b| b.is_ascii_digit());
        if !some || count > 18 || !all().all(|b| b.is_ascii_digit()) {
            return None;
        }
        let value = all().fold(0, |value, digit| 10 * value + i64::from(digit - b'0'));
        let denominator = 10_i64.checked_pow(u32::try_from(part.len()).ok()?)?;
        Self::new(if negative { -value } else { value }, denominator)
    }

    /// Above the line, reduced.
    pub fn numerator(self) -> i64 {
        self.numerator
    }

    /// Below the line, reduced, positive.
    pub fn denominator(self) -> i64 {
        self.denominator
    }

    /// The sum.
    pub fn plus(self, other: Self) -> Option<Self> {
        if self.denominator == 1 && other.denominator == 1 {
            return self.numerator.checked_add(other.numerator).map(Self::whole);
        }
        let (a, b) = (self.wide(), other.wide());
        Self::reduced(a.0 * b.1 + b.0 * a.1, a.1 * b.1)
    }

    /// The difference.
    pub fn minus(self, other: Self) -> Option<Self> {
        self.plus(other.times(Self::whole(-1))?)
    }

    /// The product.
    pub fn times(self, other: Self) -> Option<Self> {
        let (a, b) = (self.wide(), other.wide());
        Self::reduced(a.0 * b.0, a.1 * b.1)
    }

    /// The quotient; `None` where `other` is nought.
    pub fn over(self, other: Self) -> Option<Self> {
        let (a, b) = (self.wide(), other.wide());
        Self::reduced(a.0 * b.1, a.1 * b.0)
    }

    /// The nearest number that a computer's arithmetic has for it.
    pub fn to_f64(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }

    /// As a decimal number in as many places as it takes, at most 12; `None` where these do not do.
    pub(crate) fn to_decimal(self) -> Option<String> {
        let places = (0..=12).find(|&places| 10_i64.pow(places) % self.denominator == 0)?;
        Some(self.in_places(places))
    }

    /// As a decimal number, rounded to the nearest of so many places (at most 12).
    pub(crate) fn in_places(self, places: u32) -> String {
        let scale = 10_i128.pow(places.min(12));
        let (above, below) = self.wide();
        let value = (2 * above * scale + below).div_euclid(2 * below);
        let (sign, value) = (if value < 0 { "-" } else { "" }, value.abs());
        let (whole, part) = (value / scale, value % scale);
        if places == 0 {
            return format!("{sign}{whole}");
        }
        let width = places as usize;
        format!("{sign}{whole}.{part:0width$}")
    }

    fn wide(self) -> (i128, i128) {
        (i128::from(self.numerator), i128::from(self.denominator))
    }

    fn reduced(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator == 0 {
            return None;
        }
        let divisor = greatest_common_divisor(numerator, denominator) * denominator.signum();
        Some(Self {
            numerator: i64::try_from(numerator / divisor).ok()?,
            denominator: i64::try_from(denominator / divisor).ok()?,
        })
    }
}

fn greatest_common_divisor(a: i128, b: i128) -> i128 {
    let (mut a, mut b) = (a.abs(), b.abs());
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a
}

impl Ord for Fraction {
    fn cmp(&self, other: &Self) -> Ordering {
        if self.denominator == other.denominator {
            return self.numerator.cmp(&other.numerator);
        }
        let (a, b) = (self.wide(), other.wide());
        (a.0 * b.1).cmp(&(b.0 * a.1))
    }
}

/// Nought.
impl Default for Fraction {
    fn default() -> Self {
        Self::ZERO
    }
}

impl PartialOrd for Fraction {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// `5/2`, or `3` where it is whole.
impl fmt::Display for Fraction {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.numerator)?;
        if self.denominator != 1 {
            write!(f, "/{}", self.denominator)?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn decimals_are_read_exactly_and_nothing_else_is() {
        let check = |text: &str, expected: Option<(i64, i64)>| {
            let expected = expected.and_then(|(a, b)| Fraction::new(a, b));
            assert_eq!(Fraction::decimal(text), expected, "{text}");
        };
        check("0.5", Some((1, 2)));
        check(" 480 ", Some((480, 1)));
        check("-1.250", Some((-5, 4)));
        check("+2.", Some((2, 1)));
        check(".5", Some((1, 2)));
        for wrong in ["", "-", "1e3", "1/2", "0x1", "1 2", "1234567890123456789"] {
            check(wrong, None);
        }
    }

    #[test]
    fn decimals_are_written_as_they_are_read() {
        let check = |above: i64, below: i64, expected: Option<&str>, rounded: &str| {
            let fraction = Fraction::new(above, below).unwrap();
            assert_eq!(fraction.to_decimal().as_deref(), expected);
            assert_eq!(fraction.in_places(2), rounded);
            if let Some(text) = expected {
                assert_eq!(Fraction::decimal(text), Some(fraction));
            }
        };
        check(3, 1, Some("3"), "3.00");
        check(-5, 4, Some("-1.25"), "-1.25");
        check(1, 16, Some("0.0625"), "0.06");
        check(2, 3, None, "0.67");
        check(-2, 3, None, "-0.67");
    }

    #[test]
    fn what_does_not_fit_is_refused() {
        let large = Fraction::whole(i64::MAX);
        assert_eq!(large.plus(Fraction::ONE), None);
        assert_eq!(large.times(large), None);
        assert_eq!(Fraction::ONE.over(Fraction::ZERO), None);
        assert_eq!(Fraction::new(1, 0), None);
        assert_eq!(Fraction::new(i64::MIN, -1), None);
    }

    proptest! {
        #[test]
        fn sums_keep_the_rules_of_arithmetic(a in -999_i64..999, b in 1_i64..999, c in -999_i64..999, d in 1_i64..999) {
            let (x, y) = (Fraction::new(a, b).unwrap(), Fraction::new(c, d).unwrap());
            let sum = x.plus(y).unwrap();
            prop_assert_eq!(sum.minus(y), Some(x));
            prop_assert!((sum.to_f64() - (x.to_f64() + y.to_f64())).abs() < 1e-9);
            prop_assert_eq!(x.cmp(&y), (a * d).cmp(&(c * b)));
            if c != 0 {
                prop_assert_eq!(x.times(y).unwrap().over(y), Some(x));
            }
        }
    }
}
