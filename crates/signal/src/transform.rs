//! The Fourier transform of a real sound whose length is a power of two.
//!
//! On a computer its plan is made for the machine at hand. In WebAssembly there is nothing to choose: the one plan that
//! would be made there for such a length is written out here and gives the same bits, and what makes plans for all other
//! lengths, a quarter of the page's program, is left out.

use realfft::num_complex::Complex;

/// Makes transforms of one length.
#[cfg(not(target_arch = "wasm32"))]
pub(crate) use planned::Planned as Transform;
/// Makes transforms of one length.
#[cfg(target_arch = "wasm32")]
pub(crate) use written_out::WrittenOut as Transform;

#[cfg(not(target_arch = "wasm32"))]
mod planned {
    use std::sync::Arc;

    use realfft::{RealFftPlanner, RealToComplex};

    use super::Complex;

    pub(crate) struct Planned(Arc<dyn RealToComplex<f32>>);

    impl Planned {
        /// For sounds of `length` samples, a power of two from 128.
        pub(crate) fn new(length: usize) -> Self {
            Self(RealFftPlanner::new().plan_fft_forward(length))
        }

        /// Room for a sound.
        pub(crate) fn input(&self) -> Vec<f32> {
            self.0.make_input_vec()
        }

        /// Room for its transform: the bins from nought to half the sampling rate.
        pub(crate) fn output(&self) -> Vec<Complex<f32>> {
            self.0.make_output_vec()
        }

        /// Transforms a sound; what stands in `input` afterwards is of no use.
        pub(crate) fn process(&self, input: &mut [f32], output: &mut [Complex<f32>]) {
            // the plan's lengths are its own buffers' lengths, so it cannot refuse them
            let _ = self.0.process(input, output);
        }
    }
}

#[cfg(any(test, target_arch = "wasm32"))]
mod written_out {
    use std::sync::Arc;

    use rustfft::algorithm::Radix4;
    use rustfft::algorithm::butterflies::{Butterfly8, Butterfly16};
    use rustfft::{Fft, FftDirection};

    use super::Complex;

    /// Half as many complex numbers as there are samples are transformed, and turned into the sound's own bins: Press et
    /// al., Numerical Recipes, 3rd edition (2007), section 12.3.2, as the crate `realfft` orders its operations.
    pub(crate) struct WrittenOut {
        half: Radix4<f32>,
        pairs: usize,
        twiddles: Vec<Complex<f32>>,
    }

    impl WrittenOut {
        /// For sounds of `length` samples, a power of two from 128.
        pub(crate) fn new(length: usize) -> Self {
            let pairs = length / 2;
            let bits = pairs.trailing_zeros();
            // as `rustfft` plans powers of two: radix 4 on eights or sixteens
            let (own, base): (u32, Arc<dyn Fft<f32>>) = if bits % 2 == 1 {
                (3, Arc::new(Butterfly8::new(FftDirection::Forward)))
            } else {
                (4, Arc::new(Butterfly16::new(FftDirection::Forward)))
            };
            let turn = -2.0 * std::f64::consts::PI / length as f64;
            let twiddle = |k: usize| {
                let angle = turn * k as f64;
                Complex::new(angle.cos() as f32, angle.sin() as f32) * 0.5
            };
            Self {
                half: Radix4::new_with_base(bits.saturating_sub(own) / 2, base),
                pairs,
                twiddles: (1..length / 4).map(twiddle).collect(),
            }
        }

        /// Room for a sound.
        pub(crate) fn input(&self) -> Vec<f32> {
            vec![0.0; 2 * self.pairs]
        }

        /// Room for its transform: the bins from nought to half the sampling rate.
        pub(crate) fn output(&self) -> Vec<Complex<f32>> {
            vec![Complex::default(); self.pairs + 1]
        }

        /// Transforms a sound; what stands in `input` afterwards is of no use.
        pub(crate) fn process(&self, input: &mut [f32], output: &mut [Complex<f32>]) {
            let pair = |pair: &[f32]| match pair {
                &[re, im] => Complex::new(re, im),
                _ => Complex::default(),
            };
            let mut pairs: Vec<Complex<f32>> = input.chunks_exact(2).map(pair).collect();
            self.of_pairs(&mut pairs, &mut output[..self.pairs]);
            self.untangle(output);
        }

        /// The transform of the pairs, which are of no use afterwards.
        pub(super) fn of_pairs(&self, pairs: &mut [Complex<f32>], bins: &mut [Complex<f32>]) {
            let room = self.half.get_outofplace_scratch_len();
            let mut scratch = vec![Complex::default(); room];
            self.half
                .process_outofplace_with_scratch(pairs, bins, &mut scratch);
        }

        /// From the transform of the pairs to that of the sound: each bin with the one that mirrors it.
        fn untangle(&self, output: &mut [Complex<f32>]) {
            let ends = output[0];
            output[0] = Complex::new(ends.re + ends.im, 0.0);
            output[self.pairs] = Complex::new(ends.re - ends.im, 0.0);
            for (k, twiddle) in (1..).zip(&self.twiddles) {
                let (bin, mirrored) = (output[k], output[self.pairs - k]);
                let (sum, difference) = (bin + mirrored, bin - mirrored);
                let re = (sum * twiddle.re).im + (difference * twiddle.im).re;
                let im = (sum * twiddle.im).im - (difference * twiddle.re).re;
                let (half_re, half_im) = (0.5 * sum.re, 0.5 * difference.im);
                output[k] = Complex::new(half_re + re, half_im + im);
                output[self.pairs - k] = Complex::new(half_re - re, im - half_im);
            }
            let middle = &mut output[self.pairs / 2];
            middle.im = -middle.im;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::planned::Planned;
    use super::written_out::WrittenOut;
    use super::*;
    use rustfft::FftPlannerScalar;

    /// Noise of a plain generator (Knuth, The Art of Computer Programming, volume 2, 3.3.4, table 1, line 26).
    fn noise(samples: usize) -> Vec<f32> {
        let mut state = 1u64;
        let next = || {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1);
            (state >> 40) as f32 / (1 << 23) as f32 - 1.0
        };
        std::iter::repeat_with(next).take(samples).collect()
    }

    const LENGTHS: [usize; 10] = [
        128, 256, 512, 1024, 2048, 4096, 8192, 16_384, 32_768, 65_536,
    ];

    /// The sum that a bin is by definition, in double precision.
    fn by_definition(sound: &[f32], bin: usize) -> Complex<f64> {
        let turn = -std::f64::consts::TAU / sound.len() as f64;
        let term = |(i, y): (usize, &f32)| {
            let angle = turn * ((i * bin) % sound.len()) as f64;
            Complex::new(angle.cos(), angle.sin()) * f64::from(*y)
        };
        sound.iter().enumerate().map(term).sum()
    }

    #[test]
    fn both_ways_give_the_sum_that_a_transform_is() {
        for length in LENGTHS {
            let sound = noise(length);
            let (planned, written) = (Planned::new(length), WrittenOut::new(length));
            let (mut one, mut other) = (planned.output(), written.output());
            let (mut first, mut second) = (planned.input(), written.input());
            first.copy_from_slice(&sound);
            second.copy_from_slice(&sound);
            planned.process(&mut first, &mut one);
            written.process(&mut second, &mut other);
            assert_eq!((one.len(), other.len()), (length / 2 + 1, length / 2 + 1));
            let size = f64::from(u32::try_from(length).unwrap()).sqrt();
            for bin in [
                0,
                1,
                2,
                7,
                length / 8,
                length / 4,
                length / 4 + 1,
                length / 2 - 1,
                length / 2,
            ] {
                let right = by_definition(&sound, bin);
                for bins in [&one, &other] {
                    let got = Complex::new(f64::from(bins[bin].re), f64::from(bins[bin].im));
                    assert!(
                        (got - right).norm() < 1e-6 * size,
                        "{length}, bin {bin}: {got} for {right}"
                    );
                }
            }
        }
    }

    // whoever plans without the machine's special instructions, as in WebAssembly, gets these very bits
    #[test]
    fn the_plan_that_is_written_out_is_the_one_that_would_be_made() {
        for length in LENGTHS {
            let mut pairs: Vec<Complex<f32>> = noise(length)
                .chunks_exact(2)
                .map(|p| Complex::new(p[0], p[1]))
                .collect();
            let mut own = vec![Complex::default(); pairs.len()];
            WrittenOut::new(length).of_pairs(&mut pairs.clone(), &mut own);
            let mut planned = own.clone();
            let plan = FftPlannerScalar::new().plan_fft_forward(length / 2);
            let mut scratch = vec![Complex::default(); plan.get_outofplace_scratch_len()];
            plan.process_outofplace_with_scratch(&mut pairs, &mut planned, &mut scratch);
            assert_eq!(own, planned, "{length}");
        }
    }
}
