//! What comes with the pluck and is not the string: the finger leaving it, and the soundboard's knock.

use crate::carrier::{Mode, add_partial};
use crate::concert_harp::roll_off;
use crate::generator::Generator;
use crate::noise::rms;

/// Finger noise 14 dB and knocks 12 dB under `start` (the RMS of the string's first 50 ms): `n` samples, `n` ≥ 2400.
pub(crate) fn body(
    start: f64,
    n: usize,
    rate_hz: f64,
    corner_hz: f64,
    draws: &mut Generator,
) -> Vec<f64> {
    let mut finger = finger(n, rate_hz, draws);
    let mut knock = vec![0.0; n];
    for _ in 0..4 {
        let hz = draws.between(90.0, 500.0);
        let decay = 1.0 / draws.between(0.02, 0.06);
        let mode = Mode::new(roll_off(hz, corner_hz), decay, 0.0, draws.between(0.0, 6.3));
        add_partial(&mut knock, (hz, rate_hz), &[mode], None, 1e-12, |_, _| {});
    }
    let first = |seconds: f64| ((seconds * rate_hz).round() as usize).min(n);
    let louder = start * 10f64.powf(-14.0 / 20.0) / rms(&finger[..first(1.0 / 48.0)]);
    let knocking = start * 10f64.powf(-12.0 / 20.0) / rms(&knock[..first(0.05)]);
    for (f, k) in finger.iter_mut().zip(&knock) {
        *f = *f * louder + k * knocking;
    }
    finger
}

/// White noise that dies away with 8 ms.
fn finger(n: usize, rate_hz: f64, draws: &mut Generator) -> Vec<f64> {
    let each = (-1.0 / (0.008 * rate_hz)).exp();
    let mut left = 1.0;
    let noise = (0..n).map(|_| {
        let sample = draws.normal() * left;
        left *= each;
        sample
    });
    noise.collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_pluck_noise_is_gone_after_half_a_second() {
        let y = body(1.0, 48_000, 48_000.0, 100.0, &mut Generator::new(&[1]));
        assert!(rms(&y[..2400]) > 0.1);
        assert!(rms(&y[24_000..]) < 1e-3);
    }
}
