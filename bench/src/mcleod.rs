//! McLeod's method, from the crate `pitch-detection`: one of the others on the same sounds.

use pitch_detection::detector::PitchDetector;
use pitch_detection::detector::mcleod::McLeodDetector;

use crate::statistics::median;

/// The name under which it is shown.
pub const NAME: &str = "McLeod (crate pitch-detection)";
/// How it is set.
pub const ABOUT: &str =
    "0.3.0, MIT or Apache-2.0; frames of 8192, hop 1024, clarity 0.7 as in its documentation";
/// Lowest and highest pitch that any of the others may give, hertz.
pub const RANGE_HZ: (f64, f64) = (30.0, 3400.0);
/// Samples a frame: five periods of the lowest string at 48 kHz.
pub const FRAME: usize = 8192;
/// Samples from frame to frame.
pub const HOP: usize = 1024;
const CLARITY: f32 = 0.7;

/// Median over the frames in which it finds a pitch within [`RANGE_HZ`]; `None` where it finds none.
pub fn pitch_hz(samples: &[f32], rate_hz: u32) -> Option<f64> {
    let mut detector = McLeodDetector::new(FRAME, FRAME / 2);
    let frames = samples.windows(FRAME).step_by(HOP);
    let found = frames.filter_map(|frame| {
        let pitch = detector.get_pitch(frame, rate_hz as usize, 0.0, CLARITY)?;
        let hz = f64::from(pitch.frequency);
        (RANGE_HZ.0..=RANGE_HZ.1).contains(&hz).then_some(hz)
    });
    median(&found.collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_steady_tone_is_read_within_two_cents() {
        for hz in [65.4, 220.0, 1046.5] {
            let turn = std::f64::consts::TAU * hz / 48_000.0;
            let tone: Vec<f32> = (0..24_000)
                .map(|i| {
                    (1..=4)
                        .map(|n| (f64::from(n * i) * turn).sin() as f32 / n as f32)
                        .sum()
                })
                .collect();
            let off = pitch::cents(hz, pitch_hz(&tone, 48_000).unwrap());
            assert!(off.abs() < 2.0, "{hz}: {off}");
        }
    }

    #[test]
    fn silence_has_no_pitch() {
        assert_eq!(pitch_hz(&[0.0; 24_000], 48_000), None);
    }
}
