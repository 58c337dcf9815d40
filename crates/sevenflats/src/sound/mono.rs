//! Many channels to one, and what can be said of the sound as a whole: its length, its loudest
//! sample, how often it stood at its limit, how often it held no number.

/// Samples at or beyond this share of full scale count as standing at the limit.
const LIMIT: f32 = 0.999;
/// A run of this many samples at the limit is a wave cut off, not a wave that just touches it.
const CUT_RUN: u32 = 3;
/// No microphone gives a sample this large, whatever its scale: it is a damaged number.
const ABSURD: f32 = 1.0e6;
/// Less than this share left of the loudest sample, and the channels are opposites.
const CANCELLED: f32 = 0.01;
/// −80 dB under full scale: quieter than the hiss of any room through any microphone.
const SILENT: f32 = 1.0e-4;

/// Averages the channels, and keeps count.
pub(super) struct Mono {
    channels: usize,
    block: Vec<f32>,
    loudness: Loudness,
    /// For each channel, how many samples in a row stand at the limit.
    runs: Vec<u32>,
}

/// The sound as a whole, so far.
#[derive(Clone, Debug, PartialEq)]
pub struct Loudness {
    rate_hz: u32,
    samples: u64,
    peak: f32,
    mixed_peak: f32,
    cut_off: u64,
    first_cut_off: Option<u64>,
    damaged: u64,
    first_damaged: Option<u64>,
}

impl Mono {
    pub(super) fn new(channels: usize, rate_hz: u32) -> Mono {
        let loudness = Loudness {
            rate_hz,
            samples: 0,
            peak: 0.0,
            mixed_peak: 0.0,
            cut_off: 0,
            first_cut_off: None,
            damaged: 0,
            first_damaged: None,
        };
        Mono {
            channels,
            block: Vec::new(),
            loudness,
            runs: vec![0; channels],
        }
    }

    /// Interleaved samples in, the average of the channels out.
    pub(super) fn mix(&mut self, interleaved: &[f32]) -> &[f32] {
        self.block.clear();
        let share = 1.0 / self.channels.max(1) as f32;
        for frame in interleaved.chunks_exact(self.channels.max(1)) {
            let mut sum = 0.0;
            for (&sample, run) in frame.iter().zip(&mut self.runs) {
                sum += self.loudness.take(sample, run);
            }
            self.loudness.samples += 1;
            let mixed = sum * share;
            self.loudness.mixed_peak = self.loudness.mixed_peak.max(mixed.abs());
            self.block.push(mixed);
        }
        &self.block
    }

    pub(super) fn loudness(&self) -> &Loudness {
        &self.loudness
    }
}

impl Loudness {
    /// Counts one sample of one channel, and gives it back if it is a number at all.
    fn take(&mut self, sample: f32, run: &mut u32) -> f32 {
        if !(-ABSURD..=ABSURD).contains(&sample) {
            self.damaged += 1;
            self.first_damaged.get_or_insert(self.samples);
            *run = 0;
            return 0.0;
        }
        self.peak = self.peak.max(sample.abs());
        *run = if sample.abs() >= LIMIT { *run + 1 } else { 0 };
        if *run == CUT_RUN {
            self.cut_off += 1;
            self.first_cut_off.get_or_insert(self.samples);
        }
        sample
    }

    /// Seconds read.
    pub fn read_s(&self) -> f64 {
        self.seconds(self.samples)
    }

    /// Whether nothing in it is louder than −80 dB under full scale.
    pub fn is_silent(&self) -> bool {
        self.peak < SILENT
    }

    /// Whether the channels take each other away: nearly all of their sound is gone in the average.
    pub fn cancels(&self) -> bool {
        self.mixed_peak < CANCELLED * self.peak
    }

    /// How many times the wave was cut off at its limit, and where first, in seconds.
    pub fn cut_off(&self) -> Option<(u64, f64)> {
        self.first_cut_off
            .map(|first| (self.cut_off, self.seconds(first)))
    }

    /// How many samples were no number, or an absurd one, and where first, in seconds.
    pub fn damaged(&self) -> Option<(u64, f64)> {
        self.first_damaged
            .map(|first| (self.damaged, self.seconds(first)))
    }

    fn seconds(&self, samples: u64) -> f64 {
        samples as f64 / f64::from(self.rate_hz)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(channels: usize, interleaved: &[f32], mixed: &[f32]) -> Loudness {
        let mut mono = Mono::new(channels, 10);
        assert_eq!(mono.mix(interleaved), mixed);
        mono.loudness().clone()
    }

    #[test]
    fn two_channels_become_their_average() {
        check(2, &[0.5, -0.5, 0.2, 0.4], &[0.0, 0.3]);
    }

    #[test]
    fn channels_that_are_opposites_are_known() {
        assert!(check(2, &[0.5, -0.5, -0.25, 0.25], &[0.0, 0.0]).cancels());
        assert!(!check(2, &[0.5, -0.25], &[0.125]).cancels());
    }

    #[test]
    fn a_wave_cut_off_is_counted_once_where_it_begins() {
        let loudness = check(
            1,
            &[0.1, 1.0, 1.0, 1.0, 1.0, 0.2],
            &[0.1, 1.0, 1.0, 1.0, 1.0, 0.2],
        );
        assert_eq!(loudness.cut_off(), Some((1, 0.3)));
    }

    #[test]
    fn a_wave_that_touches_its_limit_is_not_cut_off() {
        assert_eq!(check(1, &[0.9, 1.0, 0.9], &[0.9, 1.0, 0.9]).cut_off(), None);
    }

    #[test]
    fn a_sample_that_is_no_number_is_silence_and_is_said() {
        let loudness = check(
            1,
            &[0.1, f32::NAN, f32::INFINITY, 1e30],
            &[0.1, 0.0, 0.0, 0.0],
        );
        assert_eq!(loudness.damaged(), Some((3, 0.1)));
    }

    #[test]
    fn silence_is_known_as_silence() {
        assert!(check(1, &[0.0, 0.00009], &[0.0, 0.00009]).is_silent());
        assert!(!check(1, &[0.0, 0.0002], &[0.0, 0.0002]).is_silent());
    }
}
