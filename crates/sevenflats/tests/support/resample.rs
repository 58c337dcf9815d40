//! A sound at another pitch: every frequency raised by the same cents, by windowed-sinc interpolation.

/// Zeros of the sinc on each side.
const ZEROS: usize = 48;
/// Steps of the kernel's table from zero to zero: straight lines between them err by 10⁻⁷.
const STEPS: usize = 4096;
/// Shape of the Kaiser window: side lobes some 100 dB down.
const SHAPE: f64 = 10.0;

/// Raises sounds; keeps the kernel.
pub(crate) struct Resampler {
    kernel: Vec<f64>,
}

impl Resampler {
    pub(crate) fn new() -> Self {
        let kernel = (0..=ZEROS * STEPS + 1).map(|k| kernel(k as f64 / STEPS as f64));
        Self {
            kernel: kernel.collect(),
        }
    }

    /// `sound` with every frequency raised by `cents` (±100), and as much shorter.
    pub(crate) fn raised(&self, sound: &[f32], cents: f64) -> Vec<f32> {
        let ratio = (cents / 1200.0).exp2();
        // what would come to lie above half the sampling rate is left out
        let keep = (1.0 / ratio).min(1.0) * 0.98;
        let reach = ZEROS as f64 / keep;
        let sample = |k: usize| {
            let at = k as f64 * ratio;
            let from = (at - reach).ceil().max(0.0) as usize;
            let to = ((at + reach) as usize).min(sound.len() - 1);
            let part = sound[from..=to].iter().zip(from..);
            part.map(|(y, j)| f64::from(*y) * keep * self.at(keep * (at - j as f64).abs()))
                .sum::<f64>() as f32
        };
        (0..(sound.len() as f64 / ratio) as usize)
            .map(sample)
            .collect()
    }

    fn at(&self, x: f64) -> f64 {
        let x = x * STEPS as f64;
        let k = (x as usize).min(ZEROS * STEPS);
        let t = x - k as f64;
        self.kernel[k] * (1.0 - t) + self.kernel[k + 1] * t
    }
}

/// sin(πx)/πx under the Kaiser window, x counted in zeros.
fn kernel(x: f64) -> f64 {
    let turn = std::f64::consts::PI * x;
    let sinc = if turn < 1e-9 { 1.0 } else { turn.sin() / turn };
    let inside = (1.0 - (x / ZEROS as f64).powi(2)).max(0.0);
    sinc * bessel(SHAPE * inside.sqrt()) / bessel(SHAPE)
}

/// The modified Bessel function I₀, by its series (Abramowitz & Stegun 1964, 9.6.12).
fn bessel(x: f64) -> f64 {
    let quarter = 0.25 * x * x;
    let (mut term, mut sum) = (1.0, 1.0);
    for k in 1..60 {
        term *= quarter / f64::from(k * k);
        sum += term;
    }
    sum
}
