//! Where samples are missing: sound that goes on is smooth, a cut leaves a step.

/// Third difference at a cut against its usual size about.
const STEP: f32 = 11.0;
/// Least third difference that counts, of full scale 1.
const LEAST: f32 = 0.002;

/// The sample in `sound` at which a step stands that no string makes, if there is one.
///
/// A recorder that loses some milliseconds joins two pieces that do not fit: the third difference jumps for four samples
/// and is what it was. The first 12 ms after an onset are passed over: a finger's noise lies there.
///
/// ```
/// let tone = |i: usize| (i as f32 * 0.05).sin() * 0.2;
/// let whole: Vec<f32> = (0..4800).map(tone).collect();
/// let cut: Vec<f32> = (0..4800).map(|i| tone(if i < 2400 { i } else { i + 470 })).collect();
/// assert_eq!(signal::broken_at(&whole, 48_000.0), None);
/// assert!(signal::broken_at(&cut, 48_000.0).is_some_and(|at| at.abs_diff(2400) < 4));
/// ```
pub fn broken_at(sound: &[f32], rate_hz: f64) -> Option<usize> {
    let third: Vec<f32> = sound
        .windows(4)
        .map(|w| (w[3] - 3.0 * w[2] + 3.0 * w[1] - w[0]).abs())
        .collect();
    let about = (0.006 * rate_hz) as usize;
    let first = (0.012 * rate_hz) as usize;
    let sums: Vec<f64> = std::iter::once(0.0)
        .chain(third.iter().scan(0.0, |sum, d| {
            *sum += f64::from(d * d);
            Some(*sum)
        }))
        .collect();
    for i in first.max(about)..third.len().saturating_sub(about) {
        if third[i] < LEAST {
            continue;
        }
        // its neighbours but the four samples that a step itself reaches
        let energy = (sums[i - 4] - sums[i - about]) + (sums[i + about] - sums[i + 5]);
        let usual = (energy / (2 * about - 9) as f64).sqrt() as f32;
        if third[i] > STEP * usual.max(1e-6) {
            return Some(i + 1);
        }
    }
    None
}
