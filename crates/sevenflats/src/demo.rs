//! An invented round, so that the command can be tried without a harp.

use std::path::Path;

use hound::{SampleFormat, WavSpec, WavWriter};
use pitch::ReferencePitch;
use pluck::Round;

use crate::trouble::Trouble;

/// Said whenever the demo round is heard.
pub const NOTICE: &str = "A demo round: an invented pedal harp, all pedals up, at A = 442 Hz. No such harp exists, and \
none was recorded.";

/// Always the same round.
const SEED: u64 = 1;
/// The reference pitch of the demo harp, in hertz.
const A4_HZ: f64 = 442.0;
/// Full scale of 16 bits.
const FULL_SCALE: f32 = 32_767.0;

/// The demo round itself, which knows its own truth.
pub fn round() -> Round {
    pluck::demo_round(SEED)
}

/// The reference pitch at which the demo harp stands.
pub(crate) fn reference() -> ReferencePitch {
    ReferencePitch::new(A4_HZ).unwrap_or(ReferencePitch::A440)
}

/// Writes the demo round as a WAV file of 16 bits.
pub(crate) fn write(path: &Path) -> Result<(), Trouble> {
    let failed = |reason: String| Trouble::Demo {
        path: path.to_owned(),
        reason,
    };
    let round = round();
    let spec = WavSpec {
        channels: 1,
        sample_rate: round.rate_hz,
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    };
    let performance = round.perform().map_err(|error| failed(error.to_string()))?;
    let mut writer = WavWriter::create(path, spec).map_err(|error| failed(error.to_string()))?;
    for sample in performance.flatten() {
        let sample = (sample.clamp(-1.0, 1.0) * FULL_SCALE).round() as i16;
        writer
            .write_sample(sample)
            .map_err(|error| failed(error.to_string()))?;
    }
    writer.finalize().map_err(|error| failed(error.to_string()))
}
