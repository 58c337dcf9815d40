//! Student's t with four degrees of freedom: for what strays farther than normal figures would.

/// The half of its 95 % interval.
pub(crate) const HALF_95: f64 = 2.776_445_105_2;

/// A normal variance as the square of the scale of a figure of Student's with the same half of a 95 % interval, so that
/// both can be added.
pub(crate) fn normal(variance: f64) -> f64 {
    variance * (1.96 / HALF_95).powi(2)
}

/// The half of the 95 % interval for so many degrees of freedom, four or more (Abramowitz & Stegun, 26.7.5, two terms).
pub(crate) fn half_95(degrees: f64) -> f64 {
    1.96 + 2.372 / degrees + 2.823 / degrees.powi(2)
}

/// How likely a figure is to lie below `x` (M. Abramowitz & I. A. Stegun, *Handbook of Mathematical Functions*, 1964,
/// 26.7.4, for four degrees of freedom).
///
/// ```text
/// below(2.132) = 0.95, below(4.604) = 0.995 (their table 26.10)
/// ```
pub(crate) fn below(x: f64) -> f64 {
    let cos2 = 4.0 / (4.0 + x * x);
    let sin = x / (4.0 + x * x).sqrt();
    0.5 + 0.5 * sin * (1.0 + 0.5 * cos2)
}

/// How likely a figure about `mean` with the scale `scale` is to lie farther from nought than `most`.
pub(crate) fn beyond(mean: f64, scale: f64, most: f64) -> f64 {
    let scale = scale.max(1e-9);
    let inside = below((most - mean) / scale) - below((-most - mean) / scale);
    (1.0 - inside).clamp(0.0, 1.0)
}

/// What a figure counts that lies so many scales off (K. L. Lange, R. J. A. Little & J. M. G. Taylor, *J. Am. Stat.
/// Assoc.* 84 (1989) 881–896, section 3).
pub(crate) fn weight(scales2: f64) -> f64 {
    5.0 / (4.0 + scales2)
}

#[cfg(test)]
mod tests {
    use super::*;

    // Abramowitz & Stegun 1964, table 26.10, four degrees of freedom (values from memory)
    #[test]
    fn it_is_as_the_table_has_it() {
        for (x, share) in [
            (0.741, 0.75),
            (1.533, 0.90),
            (2.132, 0.95),
            (2.776, 0.975),
            (4.604, 0.995),
        ] {
            assert!((below(x) - share).abs() < 2e-4, "{x}: {}", below(x));
            assert!((below(-x) - (1.0 - share)).abs() < 2e-4);
        }
        // table 26.10 again, 0.975 (from memory)
        for (degrees, half) in [(4.0, 2.776), (10.0, 2.228), (30.0, 2.042), (120.0, 1.980)] {
            assert!((half_95(degrees) - half).abs() < 0.06, "{degrees}");
        }
        assert!((below(HALF_95) - 0.975).abs() < 1e-9);
        assert!((beyond(0.0, 1.0, HALF_95) - 0.05).abs() < 1e-9);
        assert!((beyond(9.0, 0.1, 3.0) - 1.0).abs() < 1e-4);
    }
}
