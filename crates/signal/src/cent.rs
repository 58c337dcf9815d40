//! A cent as a step of the natural logarithm of frequency.

/// ln 2 ÷ 1200.
pub(crate) const CENT: f64 = std::f64::consts::LN_2 / 1200.0;
