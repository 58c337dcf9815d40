//! Invented rounds, so that the command can be tried without a harp: one to hear, one that is tuned.

use std::path::Path;

use harp::{Harp, Setup, StringName};
use hound::{SampleFormat, WavSpec, WavWriter};
use pitch::ReferencePitch;
use pluck::Round;
use tuning::regulation::Check;

use crate::trouble::Trouble;

/// Said whenever the demo round of `hear` is heard.
pub const NOTICE: &str = "A demo round: an invented pedal harp, all pedals up, at A = 442 Hz. No such harp exists, and \
none was recorded.";

/// Said whenever the demo round of `tune` is heard.
pub const TUNED_NOTICE: &str = "A demo round: an invented pedal harp that has sunk, all pedals up, tuned to A = 442 Hz by \
an invented player, twelve strings of it. No such harp exists, and none was recorded.";

/// Always the same round.
const SEED: u64 = 1;
/// The reference pitch of the demo harp, in hertz.
const A4_HZ: f64 = 442.0;
/// Full scale of 16 bits.
const FULL_SCALE: f32 = 32_767.0;

/// Why a demo round cannot be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DemoError {
    /// The harp is not as it should be.
    #[error(transparent)]
    Harp(#[from] harp::HarpError),
    /// It cannot be played.
    #[error(transparent)]
    Round(#[from] pluck::RoundError),
}

/// The demo round of `hear` itself, which knows its own truth.
pub fn round() -> Round {
    pluck::demo_round(SEED)
}

/// The demo round of `tune` itself: a dozen strings, each plucked, turned while it rings, and plucked again, in about a
/// minute.
pub fn tuned() -> Result<Round, DemoError> {
    let standing = Harp::named("pedal47")?.standing(&Setup::open(reference()))?;
    Ok(pluck::tuned_demo(&standing)?)
}

/// The demo check itself, and its strings: the F pedal's naturals are nine cents short, the sharp of D5 eight too far.
pub fn checked() -> Result<(Round, Vec<StringName>), DemoError> {
    let harp = Harp::named("pedal47")?;
    let names = ["F6", "E6", "D6", "F5", "E5", "D5", "F4", "E4", "D4"];
    let strings: Vec<StringName> = names.iter().filter_map(|name| name.parse().ok()).collect();
    let mut check = Check::new(&harp, &Setup::open(reference()), &strings)?;
    let mut standings = vec![check.standing().to_vec()];
    while let Some((_, string)) = check.next() {
        if check.heard(string, 0.0, 0.0).len() > 1 && check.next().is_some() {
            standings.push(check.standing().to_vec());
        }
    }
    let error = |string: &str, number: usize| match (string, number) {
        ("F6" | "F5" | "F4", 1 | 2) => -9.0,
        ("D5", 2) => 8.0,
        _ => 0.0,
    };
    Ok((
        pluck::player::checked(&standings, &names, error, SEED)?,
        strings,
    ))
}

/// The reference pitch at which the demo harp stands.
pub(crate) fn reference() -> ReferencePitch {
    ReferencePitch::new(A4_HZ).unwrap_or(ReferencePitch::A440)
}

/// Said whenever the demo check is heard.
pub(crate) const CHECKED_NOTICE: &str = "A demo check: an invented pedal harp at A = 442 Hz, nine strings of it, with one pedal and one \
disc out. No such harp exists, and none was recorded.";

/// Writes the demo check, and says which strings it is of.
pub(crate) fn write_checked(path: &Path) -> Result<Vec<StringName>, Trouble> {
    let failed = |reason: String| Trouble::Demo {
        path: path.to_owned(),
        reason,
    };
    let (round, strings) = checked().map_err(|error| failed(error.to_string()))?;
    write(path, &round)?;
    Ok(strings)
}

/// Writes the demo round of `tune`.
pub(crate) fn write_tuned(path: &Path) -> Result<(), Trouble> {
    let round = tuned().map_err(|error| Trouble::Demo {
        path: path.to_owned(),
        reason: error.to_string(),
    })?;
    write(path, &round)
}

/// Writes a demo round as a WAV file of 16 bits.
pub(crate) fn write(path: &Path, round: &Round) -> Result<(), Trouble> {
    let failed = |reason: String| Trouble::Demo {
        path: path.to_owned(),
        reason,
    };
    let performance = round.perform().map_err(|error| failed(error.to_string()))?;
    let written = write_wav(path, round.rate_hz, performance.flatten());
    written.map_err(|error| failed(error.to_string()))
}

/// Writes samples of one channel, −1 to 1, as a WAV file of 16 bits.
///
/// # Errors
/// The file cannot be written.
pub fn write_wav(
    path: &Path,
    rate_hz: u32,
    samples: impl Iterator<Item = f32>,
) -> Result<(), hound::Error> {
    let spec = WavSpec {
        channels: 1,
        sample_rate: rate_hz,
        bits_per_sample: 16,
        sample_format: SampleFormat::Int,
    };
    let mut writer = WavWriter::create(path, spec)?;
    for sample in samples {
        writer.write_sample((sample.clamp(-1.0, 1.0) * FULL_SCALE).round() as i16)?;
    }
    writer.finalize()
}
