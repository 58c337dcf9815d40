//! Computing time ÷ sound time of the ear on a whole ringing round, and of two plain computations beside it.

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::RATE_HZ;
use realfft::RealFftPlanner;
use tuning::Heard;

use crate::cpu_clock::CpuClock;
use crate::ear::Ours;
use crate::mcleod::{self, FRAME, HOP};
use crate::ringing_round;
use crate::statistics::median;
use crate::trouble::Trouble;

/// Runs of each.
pub const RUNS: usize = 5;
/// Samples handed over at a time.
const BLOCK: usize = 1024;

/// The middle run, the fastest and the slowest: here of computing time ÷ sound time, on one core.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// The middle run.
    pub median: f64,
    /// The fastest.
    pub fastest: f64,
    /// The slowest.
    pub slowest: f64,
}

/// What was measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Speed {
    /// The round's length in seconds.
    pub round_s: f64,
    /// Last readings that the ear gave of it.
    pub readings: usize,
    /// The ear.
    pub ear: Load,
    /// McLeod's method, frames of 8192, hop 1024.
    pub mcleod: Load,
    /// One Fourier transform a frame, the same frames.
    pub fourier: Load,
}

/// Renders the round, then times each listener on it, turn by turn so that the machine's moods fall on all.
///
/// # Errors
/// None, as long as the harp is built in.
pub fn measure(seed: u64) -> Result<Speed, Trouble> {
    let samples = ringing_round::samples(seed)?;
    let round_s = ringing_round::seconds(&samples);
    let standing = Harp::named("pedal47")?.standing(&Setup::open(ReferencePitch::A440))?;
    let ours = Ours::new(standing, ReferencePitch::A440);
    let mut times: [Vec<f64>; 3] = Default::default();
    let mut readings = 0;
    for _ in 0..RUNS {
        let clock = CpuClock::start();
        readings = hear(&ours, &samples)?;
        times[0].push(clock.seconds() / round_s);
        let clock = CpuClock::start();
        std::hint::black_box(mcleod::pitch_hz(&samples, RATE_HZ));
        times[1].push(clock.seconds() / round_s);
        let clock = CpuClock::start();
        std::hint::black_box(transform(&samples));
        times[2].push(clock.seconds() / round_s);
    }
    let [ear, mcleod, fourier] = times.map(|times| load(&times));
    Ok(Speed {
        round_s,
        readings,
        ear,
        mcleod,
        fourier,
    })
}

fn hear(ours: &Ours, samples: &[f32]) -> Result<usize, Trouble> {
    let mut ear = ours.ear(RATE_HZ, None, None)?;
    let mut readings = 0;
    let mut count = |heard: Vec<Heard>| {
        let last = |heard: &&Heard| matches!(heard, Heard::Reading(reading) if reading.last);
        readings += heard.iter().filter(last).count();
    };
    for block in samples.chunks(BLOCK) {
        count(ear.push(block));
    }
    count(ear.finish());
    Ok(readings)
}

/// The energy of all spectra, so that none can be left out.
fn transform(samples: &[f32]) -> f32 {
    let transform = RealFftPlanner::<f32>::new().plan_fft_forward(FRAME);
    let mut spectrum = transform.make_output_vec();
    let mut scratch = transform.make_scratch_vec();
    let mut energy = 0.0;
    for frame in samples.windows(FRAME).step_by(HOP) {
        let mut frame = frame.to_vec();
        let done = transform.process_with_scratch(&mut frame, &mut spectrum, &mut scratch);
        if done.is_ok() {
            energy += spectrum.iter().map(|bin| bin.norm_sqr()).sum::<f32>();
        }
    }
    energy
}

pub(crate) fn load(times: &[f64]) -> Load {
    Load {
        median: median(times).unwrap_or(f64::NAN),
        fastest: times.iter().copied().fold(f64::INFINITY, f64::min),
        slowest: times.iter().copied().fold(f64::NEG_INFINITY, f64::max),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_transform_sees_every_frame() {
        let quiet = transform(&vec![0.0; 3 * FRAME]);
        let loud = transform(&vec![0.5; 3 * FRAME]);
        assert!(quiet == 0.0 && loud > 1.0);
    }

    #[test]
    fn a_load_is_its_middle_run() {
        let load = load(&[0.03, 0.01, 0.02]);
        assert_eq!(
            (load.median, load.fastest, load.slowest),
            (0.02, 0.01, 0.03)
        );
    }
}
