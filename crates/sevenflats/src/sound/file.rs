//! WAV, FLAC and MP3, read packet by packet.

use std::fs::File;
use std::io::{Cursor, ErrorKind};
use std::path::Path;

use symphonia::core::codecs::audio::well_known::CODEC_ID_MP3;
use symphonia::core::codecs::audio::{AudioDecoder, AudioDecoderOptions};
use symphonia::core::errors::Error;
use symphonia::core::formats::probe::Hint;
use symphonia::core::formats::{FormatOptions, FormatReader, Track, TrackType};
use symphonia::core::io::{MediaSource, MediaSourceStream};
use symphonia::core::meta::MetadataOptions;

use super::SoundError;

/// More damaged packets than this in a row, and the rest of the file is given up.
const DAMAGED_IN_A_ROW: u32 = 50;

pub(super) struct FileSound {
    reader: Box<dyn FormatReader>,
    decoder: Box<dyn AudioDecoder>,
    track: u32,
    rate_hz: u32,
    channels: usize,
    promised_s: Option<f64>,
    samples: Vec<f32>,
}

impl FileSound {
    pub(super) fn open(path: &Path) -> Result<FileSound, SoundError> {
        let facts = std::fs::metadata(path).map_err(SoundError::Open)?;
        if facts.is_dir() {
            return Err(SoundError::Folder);
        }
        if facts.is_file() && facts.len() == 0 {
            return Err(SoundError::Empty);
        }
        let file = File::open(path).map_err(SoundError::Open)?;
        FileSound::new(Box::new(file))
    }

    pub(super) fn from_bytes(bytes: Vec<u8>) -> Result<FileSound, SoundError> {
        if bytes.is_empty() {
            return Err(SoundError::Empty);
        }
        FileSound::new(Box::new(Cursor::new(bytes)))
    }

    fn new(source: Box<dyn MediaSource>) -> Result<FileSound, SoundError> {
        let stream = MediaSourceStream::new(source, Default::default());
        let reader = symphonia::default::get_probe()
            .probe(
                &Hint::new(),
                stream,
                FormatOptions::default(),
                MetadataOptions::default(),
            )
            .map_err(unknown)?;
        let track = reader
            .default_track(TrackType::Audio)
            .ok_or(SoundError::NoSound)?;
        let parameters = track
            .codec_params
            .as_ref()
            .and_then(|parameters| parameters.audio())
            .ok_or(SoundError::NoSound)?;
        let decoder = symphonia::default::get_codecs()
            .make_audio_decoder(parameters, &AudioDecoderOptions::default())
            .map_err(|error| SoundError::Coding(error.to_string()))?;
        let rate_hz = parameters.sample_rate.ok_or(SoundError::NoSound)?;
        let channels = parameters
            .channels
            .as_ref()
            .map_or(0, |channels| channels.count());
        if channels == 0 {
            return Err(SoundError::NoSound);
        }
        Ok(FileSound {
            decoder,
            track: track.id,
            rate_hz,
            channels,
            promised_s: promised_s(track, rate_hz),
            samples: Vec::new(),
            reader,
        })
    }

    pub(super) fn rate_hz(&self) -> u32 {
        self.rate_hz
    }

    pub(super) fn channels(&self) -> usize {
        self.channels
    }

    /// Interleaved samples of the next packet, or none at the end.
    pub(super) fn next_block(&mut self, read_s: f64) -> Result<Option<&[f32]>, SoundError> {
        let mut damaged = 0;
        loop {
            let packet = match self.reader.next_packet() {
                Ok(Some(packet)) => packet,
                Ok(None) => return self.end(read_s).map(|()| None),
                Err(error) => return Err(self.broken(error, read_s)),
            };
            if packet.track_id != self.track {
                continue;
            }
            match self.decoder.decode(&packet) {
                Ok(buffer) => {
                    let spec = buffer.spec();
                    if spec.rate() != self.rate_hz || spec.channels().count() != self.channels {
                        return Err(SoundError::Changes { at_s: read_s });
                    }
                    buffer.copy_to_vec_interleaved(&mut self.samples);
                    if !self.samples.is_empty() {
                        return Ok(Some(&self.samples));
                    }
                }
                // A damaged packet is a gap; the listener hears that the sound broke.
                Err(Error::DecodeError(_)) if damaged < DAMAGED_IN_A_ROW => damaged += 1,
                Err(error) => return Err(self.broken(error, read_s)),
            }
        }
    }
}

impl FileSound {
    /// The end of the file: is it the end of the sound?
    fn end(&self, read_s: f64) -> Result<(), SoundError> {
        match self.promised_s {
            Some(promised_s) if read_s + 0.5 / f64::from(self.rate_hz) < promised_s => {
                Err(SoundError::EndsEarly {
                    read_s,
                    promised_s: self.promised_s,
                })
            }
            _ => Ok(()),
        }
    }

    fn broken(&self, error: Error, read_s: f64) -> SoundError {
        match error {
            Error::IoError(reason) if reason.kind() == ErrorKind::UnexpectedEof => {
                SoundError::EndsEarly {
                    read_s,
                    promised_s: self.promised_s,
                }
            }
            Error::IoError(reason) => SoundError::Stops {
                at_s: read_s,
                reason,
            },
            Error::ResetRequired => SoundError::Changes { at_s: read_s },
            other => SoundError::Stops {
                at_s: read_s,
                reason: std::io::Error::other(other.to_string()),
            },
        }
    }
}

/// How long the file says it is, in seconds; none where it only could be guessed.
///
/// An MP3 without the encoder's own count has none: from its size alone a varying bit rate would make
/// a whole file look broken off.
fn promised_s(track: &Track, rate_hz: u32) -> Option<f64> {
    let is_mp3 = track
        .codec_params
        .as_ref()
        .and_then(|parameters| parameters.audio())
        .is_some_and(|audio| audio.codec == CODEC_ID_MP3);
    let frames = track
        .num_frames
        .filter(|_| !is_mp3 || track.delay.is_some())?;
    Some(frames as f64 / f64::from(rate_hz))
}

fn unknown(error: Error) -> SoundError {
    match error {
        Error::IoError(reason) if reason.kind() == ErrorKind::UnexpectedEof => {
            SoundError::Unknown("it ends inside its own beginning".to_owned())
        }
        Error::IoError(reason) => SoundError::Open(reason),
        other => SoundError::Unknown(other.to_string()),
    }
}
