//! Strings made for practice by ear: one after the other, or two together; never loud, never sudden.
//!
//! Their partials are whole multiples of what they sound (B = 0), so that two of them beat as the tables of beats say, which
//! know no stiffness; and they ring longer than a real string, so that slow beats can be counted. Nothing here was recorded.

use crate::RATE_HZ;
use crate::carrier::{Mode, add_partial};
use crate::concert_harp::typical_t60;
use crate::generator::Generator;

/// No sample of any of these sounds exceeds this; full scale is 1, so it lies 14 dB below.
pub const LOUDEST: f64 = 0.2;

/// Every string fades in over this time, seconds, and out over [`FADE_OUT_S`].
pub const FADE_IN_S: f64 = 0.012;

/// See [`FADE_IN_S`].
pub const FADE_OUT_S: f64 = 0.08;

/// How long each of two strings sounds that follow each other, and the silence between them, seconds.
const EACH_S: f64 = 1.3;
const BETWEEN_S: f64 = 0.25;

/// How long two strings sound together, seconds.
pub const TOGETHER_S: f64 = 8.0;

/// What the first, quiet sample sounds: C4, Hz.
const SAMPLE_HZ: f64 = 261.625_565_300_598_6;

/// So many partials are made at most, none above this frequency in Hz.
const PARTIALS: u32 = 16;
const HIGHEST_HZ: f64 = 9_000.0;

/// One string for itself, to set the loudness by: by A-weighting no other sound here is louder, and by its peak none.
#[must_use]
pub fn made_sample() -> Vec<f32> {
    let string = Made::new(SAMPLE_HZ, 0);
    quiet(string.sound(2.0 * EACH_S), string.level())
}

/// Two strings one after the other, Hz each (above 0), plucked alike: the same share of each partial, the same phase.
///
/// ```
/// let sound = pluck::made_in_turn(440.0, 443.0, 7);
/// assert!(sound.iter().all(|sample| f64::from(sample.abs()) <= pluck::LOUDEST));
/// ```
#[must_use]
pub fn made_in_turn(first_hz: f64, second_hz: f64, seed: u64) -> Vec<f32> {
    let (first, second) = (Made::new(first_hz, seed), Made::new(second_hz, seed));
    let level = first.level().max(second.level());
    let mut sound = first.sound(EACH_S);
    sound.resize(sound.len() + samples(BETWEEN_S), 0.0);
    sound.extend(second.sound(EACH_S));
    quiet(sound, level)
}

/// Two strings together for [`TOGETHER_S`], Hz each (above 0).
#[must_use]
pub fn made_together(low_hz: f64, high_hz: f64, seed: u64) -> Vec<f32> {
    let (low, high) = (
        Made::new(low_hz, seed),
        Made::new(high_hz, seed.wrapping_add(1)),
    );
    let both = low.sound(TOGETHER_S).into_iter();
    let sound = both.zip(high.sound(TOGETHER_S)).map(|(a, b)| a + b);
    // where partials meet their amplitudes add up, not their powers: as loud as that could be
    quiet(sound.collect(), low.level() + high.level())
}

/// A string's partials: frequency in Hz, amplitude, decay per second, phase in radians.
struct Made {
    partials: Vec<(f64, f64, f64, f64)>,
}

impl Made {
    fn new(hz: f64, seed: u64) -> Self {
        let mut draws = Generator::new(&[seed, 0xea5]);
        // near a seventh of its length, so that none of the partials that beat is missing
        let point = draws.between(0.13, 0.16);
        let ring = 1000f64.ln() / (1.5 * typical_t60(hz));
        let count = match hz.is_finite() && hz > 0.0 {
            true => (HIGHEST_HZ / hz).floor().clamp(1.0, f64::from(PARTIALS)) as u32,
            false => 0,
        };
        let partial = |n| {
            let n = f64::from(n);
            let shape = (std::f64::consts::PI * n * point).sin().abs() / n;
            let soft = ((1.0 - n) * hz / 1100.0).exp();
            let decay = ring * (1.0 + 0.06 * (n - 1.0));
            (n * hz, shape * soft, decay, draws.angle())
        };
        Self {
            partials: (1..=count).map(partial).collect(),
        }
    }

    fn sound(&self, seconds: f64) -> Vec<f64> {
        let mut sound = vec![0.0; samples(seconds)];
        for &(hz, amplitude, decay, phase) in &self.partials {
            let mode = Mode::new(amplitude, decay, 0.0, phase);
            let heard = (hz, f64::from(RATE_HZ));
            add_partial(&mut sound, heard, &[mode], None, 1e-9, |_, _| {});
        }
        faded(sound)
    }

    /// What an ear makes of it: the root of the mean square with each partial weighted, as it begins.
    fn level(&self) -> f64 {
        let power = |&(hz, amplitude, ..): &(f64, f64, f64, f64)| {
            let weighted = amplitude * a_weight(hz);
            0.5 * weighted * weighted
        };
        self.partials.iter().map(power).sum::<f64>().sqrt()
    }
}

fn samples(seconds: f64) -> usize {
    (seconds * f64::from(RATE_HZ)).round() as usize
}

/// Fades in and out along half a cosine.
fn faded(mut sound: Vec<f64>) -> Vec<f64> {
    let along = |at: usize, of: usize| {
        let share = (at as f64 / of as f64).min(1.0);
        0.5 - 0.5 * (std::f64::consts::PI * share).cos()
    };
    let (rise, fall, len) = (samples(FADE_IN_S), samples(FADE_OUT_S), sound.len());
    for (at, sample) in sound.iter_mut().enumerate() {
        *sample *= along(at, rise) * along(len - 1 - at, fall);
    }
    sound
}

/// Brings a sound to [`LOUDEST`], or lower where it would be louder than the sample by its weighted level.
fn quiet(sound: Vec<f64>, level: f64) -> Vec<f32> {
    let peak = sound.iter().fold(0.0, |most: f64, s| most.max(s.abs()));
    let scale = (LOUDEST / peak).min(sample_level() / level);
    let scale = if scale.is_finite() { scale } else { 0.0 };
    // rounding to f32 shall not lift a peak above the bound
    let scale = scale * (1.0 - 1e-6);
    sound.into_iter().map(|s| (s * scale) as f32).collect()
}

/// The weighted level of the sample, when its peak is at [`LOUDEST`].
fn sample_level() -> f64 {
    let string = Made::new(SAMPLE_HZ, 0);
    // the first tenth of a second holds the peak of what only dies away
    let peak = string.sound(0.2).into_iter();
    let peak = peak.fold(0.0, |most: f64, s| most.max(s.abs()));
    string.level() * LOUDEST / peak
}

/// A-weighting as an amplitude, 1 at 1 kHz (IEC 61672-1, annex E; formula from memory, held to its table below).
fn a_weight(hz: f64) -> f64 {
    let square = hz * hz;
    let pole = |f: f64| square + f * f;
    let low = pole(20.6) * (pole(107.7) * pole(737.9)).sqrt();
    1.2589 * 12_194f64.powi(2) * square * square / (low * pole(12_194.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    // IEC 61672-1:2013, table 3: −19.1 dB at 100 Hz, −10.9 at 200, −3.2 at 500, 0 at 1000, +1.2 at 2000, +1.0 at 4000, within
    // the rounding of its nominal frequencies (values from memory)
    #[test]
    fn weights_are_those_of_the_standard() {
        for (hz, db) in [
            (100.0, -19.1),
            (200.0, -10.9),
            (500.0, -3.2),
            (1000.0, 0.0),
            (2000.0, 1.2),
            (4000.0, 1.0),
        ] {
            let found = 20.0 * a_weight(hz).log10();
            assert!((found - db).abs() < 0.12, "{hz} Hz: {found}");
        }
    }

    #[test]
    fn nothing_sounds_at_once() {
        let sound = made_sample();
        assert_eq!(sound.first(), Some(&0.0));
        let within = |s: f64| {
            let first = sound.iter().take(samples(s));
            first.fold(0f32, |most, s| most.max(s.abs()))
        };
        assert!(within(0.001) < 0.02 * within(1.0), "{}", within(0.001));
        assert!(sound.last().is_some_and(|last| last.abs() < 1e-6));
    }

    #[test]
    fn what_is_no_pitch_is_silence() {
        for hz in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(made_in_turn(hz, hz, 1).iter().all(|s| *s == 0.0), "{hz}");
        }
    }
}
