//! Sound as it comes in: a file or a stream, block by block, as one channel of `f32` samples.
//!
//! Never the whole of it in memory: an hour-long recording takes no more room than a second of it.

mod file;
mod mono;
pub mod notes;
mod pcm;

use std::io::Read;
use std::path::Path;

use thiserror::Error;

pub use mono::Loudness;
pub use pcm::PcmFormat;

use file::FileSound;
use mono::Mono;
use pcm::Pcm;

/// Lowest sampling rate that is listened to, in hertz.
pub const LOWEST_RATE_HZ: u32 = 8_000;
/// Highest sampling rate that is listened to, in hertz.
pub const HIGHEST_RATE_HZ: u32 = 192_000;

/// A sound being read.
pub struct Sound {
    source: Source,
    mono: Mono,
    rate_hz: u32,
    channels: usize,
}

/// Why a sound, or the rest of it, cannot be read.
#[derive(Debug, Error)]
pub enum SoundError {
    /// The file is not there, or may not be read.
    #[error("cannot be opened: {0}; check the name and that you may read it")]
    Open(std::io::Error),
    /// A folder was named instead of a file.
    #[error("is a folder; name the recordings in it one by one")]
    Folder,
    /// There is not one byte in it.
    #[error("is empty (0 bytes); record it again, or copy it again if it was copied")]
    Empty,
    /// Not a sound that can be read, or its beginning is damaged.
    #[error("is no WAV, FLAC or MP3 file that can be read ({0}); convert it to WAV and try again")]
    Unknown(String),
    /// A sound in a coding that is not read.
    #[error("holds sound in a coding that is not read here ({0}); convert it to plain WAV")]
    Coding(String),
    /// The file has no sound in it.
    #[error("has no sound in it; record it again")]
    NoSound,
    /// A sampling rate outside 8 to 192 kHz.
    #[error(
        "is sampled at {0} Hz; sound from {LOWEST_RATE_HZ} to {HIGHEST_RATE_HZ} Hz can be heard: record or convert it at 48000 Hz"
    )]
    Rate(u32),
    /// The sound ends before its file says it should.
    #[error(
        "breaks off {read_s:.2} s from its start{}; what was heard until then stands: copy the file again for the rest", expected(*.promised_s)
    )]
    EndsEarly {
        /// How much was read, in seconds.
        read_s: f64,
        /// How much there should have been, in seconds, where the file says so.
        promised_s: Option<f64>,
    },
    /// The sound changes its rate or its channels on the way.
    #[error(
        "changes its sampling rate or its channels {at_s:.2} s from its start; save it as one plain WAV"
    )]
    Changes {
        /// Where, in seconds from the start.
        at_s: f64,
    },
    /// The disk or the stream failed.
    #[error("stops {at_s:.2} s from its start: {reason}")]
    Stops {
        /// Where, in seconds from the start.
        at_s: f64,
        /// What the system says.
        reason: std::io::Error,
    },
}

enum Source {
    File(FileSound),
    Pcm(Pcm),
}

impl Sound {
    /// Opens a WAV, FLAC or MP3 file by what it holds, whatever its name ends in.
    pub fn open(path: &Path) -> Result<Sound, SoundError> {
        let file = FileSound::open(path)?;
        let (rate_hz, channels) = (file.rate_hz(), file.channels());
        Sound::new(Source::File(file), rate_hz, channels)
    }

    /// Opens a WAV, FLAC or MP3 file that is already in memory.
    pub fn from_bytes(bytes: Vec<u8>) -> Result<Sound, SoundError> {
        let file = FileSound::from_bytes(bytes)?;
        let (rate_hz, channels) = (file.rate_hz(), file.channels());
        Sound::new(Source::File(file), rate_hz, channels)
    }

    /// Reads one channel of raw PCM samples at `rate_hz` from a stream.
    pub fn pcm(
        stream: Box<dyn Read>,
        format: PcmFormat,
        rate_hz: u32,
    ) -> Result<Sound, SoundError> {
        Sound::new(Source::Pcm(Pcm::new(stream, format)), rate_hz, 1)
    }

    fn new(source: Source, rate_hz: u32, channels: usize) -> Result<Sound, SoundError> {
        if !(LOWEST_RATE_HZ..=HIGHEST_RATE_HZ).contains(&rate_hz) {
            return Err(SoundError::Rate(rate_hz));
        }
        Ok(Sound {
            source,
            mono: Mono::new(channels, rate_hz),
            rate_hz,
            channels,
        })
    }

    /// Samples per second.
    pub fn rate_hz(&self) -> u32 {
        self.rate_hz
    }

    /// How many channels the source has; they are mixed down to one.
    pub fn channels(&self) -> usize {
        self.channels
    }

    /// Seconds read so far.
    pub fn read_s(&self) -> f64 {
        self.mono.loudness().read_s()
    }

    /// What can be said of the sound read so far as a whole.
    pub fn loudness(&self) -> &Loudness {
        self.mono.loudness()
    }

    /// The next samples, or none at the end. After an error there is nothing more to read.
    pub fn next_block(&mut self) -> Result<Option<&[f32]>, SoundError> {
        let read_s = self.read_s();
        let interleaved = match &mut self.source {
            Source::File(file) => file.next_block(read_s)?,
            Source::Pcm(pcm) => pcm.next_block(read_s)?,
        };
        Ok(interleaved.map(|samples| self.mono.mix(samples)))
    }
}

fn expected(promised_s: Option<f64>) -> String {
    promised_s
        .map(|s| format!(" of the {s:.2} s that its beginning announces"))
        .unwrap_or_default()
}
