//! Noise: pink, and how loud a stretch of samples is.

use std::sync::{Arc, LazyLock, Mutex};

use realfft::num_complex::Complex64;
use realfft::{ComplexToReal, RealFftPlanner};

use crate::generator::Generator;

/// Root mean square of some samples; never quite 0, so that one may divide by it.
pub(crate) fn rms(samples: &[f64]) -> f64 {
    let squares: f64 = samples.iter().map(|x| x * x).sum();
    (squares / samples.len().max(1) as f64).sqrt() + 1e-15
}

/// Pink noise of the given power between 20 Hz and 20 kHz (equal power in every octave): `n` samples at `rate_hz`.
///
/// Shaped in frequency over the next power of two, independent complex normal bins (real parts drawn first).
pub(crate) fn pink(n: usize, rate_hz: f64, power: f64, draws: &mut Generator) -> Vec<f64> {
    let m = n.next_power_of_two();
    let bins = m / 2 + 1;
    let mut spectrum: Vec<Complex64> = (0..bins)
        .map(|_| Complex64::new(draws.normal(), 0.0))
        .collect();
    for bin in &mut spectrum {
        bin.im = draws.normal();
    }
    let octaves = 1000f64.ln();
    for (k, bin) in spectrum.iter_mut().enumerate() {
        let hz = k as f64 * rate_hz / m as f64;
        let heard = (20.0..=20_000.0).contains(&hz) && k + 1 < bins;
        let density = if heard { power / octaves / hz } else { 0.0 };
        *bin *= (density * m as f64 * rate_hz / 4.0).sqrt() / m as f64;
    }
    if let Some(dc) = spectrum.first_mut() {
        *dc = Complex64::ZERO;
    }
    if let Some(nyquist) = spectrum.last_mut() {
        nyquist.im = 0.0;
    }
    let mut samples = vec![0.0; m];
    // Cannot fail: both lengths are the plan's and the end bins are real.
    if plan(m).process(&mut spectrum, &mut samples).is_err() {
        samples.fill(0.0);
    }
    samples.truncate(n);
    samples
}

static PLANNER: LazyLock<Mutex<RealFftPlanner<f64>>> =
    LazyLock::new(|| Mutex::new(RealFftPlanner::new()));

fn plan(m: usize) -> Arc<dyn ComplexToReal<f64>> {
    match PLANNER.lock() {
        Ok(mut planner) => planner.plan_fft_inverse(m),
        Err(_) => RealFftPlanner::new().plan_fft_inverse(m),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pink_noise_has_the_power_asked_for() {
        let y = pink(131_072, 48_000.0, 4.0, &mut Generator::new(&[8]));
        // Pink noise of 2.7 s holds few independent bass bins: 10 % is about three standard errors of its RMS.
        assert!((rms(&y) / 2.0 - 1.0).abs() < 0.1, "{}", rms(&y));
    }

    #[test]
    fn silence_may_be_divided_by() {
        assert!(rms(&[0.0; 10]) > 0.0);
        assert!(rms(&[]) > 0.0);
    }
}
