//! How far from the middle line a bead stands for so many cents.

/// From here on a bead stands at the end of its reach, in cents.
pub const FULL_CENTS: f64 = 60.0;

/// Below about this many cents the scale is even, above it logarithmic.
const EVEN_CENTS: f64 = 4.0;

/// The share of its reach at which a bead stands, −1 to 1, positive when the string is too high:
/// asinh(c / 4) ÷ asinh(60 / 4), held at ±1 beyond 60 cents.
///
/// The inverse hyperbolic sine is even near nought and logarithmic far from it, so that 3 cents
/// and 60 can both be seen: 3 cents take a fifth of the reach. What is no number stands at nought.
///
/// ```
/// use sheet::share_of_reach;
/// assert_eq!(share_of_reach(60.0), 1.0);
/// assert_eq!(share_of_reach(-500.0), -1.0);
/// assert!((share_of_reach(3.0) - 0.204).abs() < 0.001);
/// ```
pub fn share_of_reach(cents: f64) -> f64 {
    if cents.is_nan() {
        return 0.0;
    }
    let held = cents.clamp(-FULL_CENTS, FULL_CENTS);
    (held / EVEN_CENTS).asinh() / (FULL_CENTS / EVEN_CENTS).asinh()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scale_rises_and_is_the_same_both_ways() {
        let mut last = -2.0;
        for tenths in -600..=600 {
            let cents = f64::from(tenths) / 10.0;
            let share = share_of_reach(cents);
            assert!(share > last, "{cents}");
            assert!((share + share_of_reach(-cents)).abs() < 1e-12, "{cents}");
            last = share;
        }
    }

    #[test]
    fn three_and_sixty_cents_can_both_be_read() {
        assert!(share_of_reach(3.0) > 0.15);
        assert!(share_of_reach(60.0) - share_of_reach(40.0) > 0.1);
        assert_eq!(share_of_reach(f64::NAN), 0.0);
        assert_eq!(share_of_reach(f64::INFINITY), 1.0);
    }
}
