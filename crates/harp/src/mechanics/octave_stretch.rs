//! Octave stretch: how far an octave of real strings stands above 2:1 when its partials agree.

/// Cents by which the first partials of two strings lie further apart than 2:1 when partial `a` of
/// the lower (B `b_low`) is tuned to partial `b` of the upper (B `b_up`), with a = 2b:
/// 600·log2[(1 + a²B_l)/(1 + B_l) · (1 + B_u)/(1 + b²B_u)].
///
/// The pairs in use are (2, 1), (4, 2), (6, 3) and (8, 4); for (2, 1) the upper string's B does
/// not matter. Algebra from the stiff-string law.
///
/// ```
/// let stretch = harp::mechanics::octave_stretch_cents(1.2e-4, 1.2e-4, (4, 2));
/// assert!((stretch - 1.245).abs() < 0.005);
/// ```
pub fn octave_stretch_cents(b_low: f64, b_up: f64, partials: (u32, u32)) -> f64 {
    let square = |n: u32| f64::from(n).powi(2);
    let lower = (1.0 + square(partials.0) * b_low) / (1.0 + b_low);
    let upper = (1.0 + b_up) / (1.0 + square(partials.1) * b_up);
    600.0 * (lower * upper).log2()
}
