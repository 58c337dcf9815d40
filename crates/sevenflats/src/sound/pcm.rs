//! Raw samples from a stream: one channel, no header, so rate and format must be told.

use std::io::{ErrorKind, Read};

use super::SoundError;

/// Bytes asked for at a time: a few hundredths of a second, so that a live stream is heard live.
const BLOCK_BYTES: usize = 8192;

/// How a raw sample is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq, clap::ValueEnum)]
pub enum PcmFormat {
    /// Signed integers of 16 bits, low byte first.
    S16le,
    /// Floating-point numbers of 32 bits, low byte first, full scale at 1.
    F32le,
}

pub(super) struct Pcm {
    stream: Box<dyn Read>,
    format: PcmFormat,
    bytes: Vec<u8>,
    /// Bytes of a sample of which the rest has not come yet.
    waiting: usize,
    samples: Vec<f32>,
}

impl Pcm {
    pub(super) fn new(stream: Box<dyn Read>, format: PcmFormat) -> Pcm {
        Pcm {
            stream,
            format,
            bytes: vec![0; BLOCK_BYTES],
            waiting: 0,
            samples: Vec::new(),
        }
    }

    pub(super) fn next_block(&mut self, read_s: f64) -> Result<Option<&[f32]>, SoundError> {
        let size = self.format.bytes();
        loop {
            let got = match self.stream.read(&mut self.bytes[self.waiting..]) {
                Ok(0) if self.waiting == 0 => return Ok(None),
                Ok(0) => {
                    return Err(SoundError::EndsEarly {
                        read_s,
                        promised_s: None,
                    });
                }
                Ok(got) => got,
                Err(error) if error.kind() == ErrorKind::Interrupted => continue,
                Err(reason) => {
                    return Err(SoundError::Stops {
                        at_s: read_s,
                        reason,
                    });
                }
            };
            let filled = self.waiting + got;
            let whole = filled / size * size;
            self.samples.clear();
            self.samples.extend(
                self.bytes[..whole]
                    .chunks_exact(size)
                    .map(|b| self.format.read(b)),
            );
            self.bytes.copy_within(whole..filled, 0);
            self.waiting = filled - whole;
            if !self.samples.is_empty() {
                return Ok(Some(&self.samples));
            }
        }
    }
}

impl PcmFormat {
    fn bytes(self) -> usize {
        match self {
            PcmFormat::S16le => 2,
            PcmFormat::F32le => 4,
        }
    }

    fn read(self, bytes: &[u8]) -> f32 {
        match (self, bytes) {
            (PcmFormat::S16le, &[a, b]) => f32::from(i16::from_le_bytes([a, b])) / 32_768.0,
            (PcmFormat::F32le, &[a, b, c, d]) => f32::from_le_bytes([a, b, c, d]),
            _ => 0.0,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A stream that gives its bytes one at a time, as a slow pipe may.
    struct Drop(Vec<u8>);

    impl Read for Drop {
        fn read(&mut self, buffer: &mut [u8]) -> std::io::Result<usize> {
            if self.0.is_empty() {
                return Ok(0);
            }
            buffer[0] = self.0.remove(0);
            Ok(1)
        }
    }

    fn check(format: PcmFormat, bytes: &[u8]) -> (Vec<f32>, bool) {
        let mut pcm = Pcm::new(Box::new(Drop(bytes.to_vec())), format);
        let mut all = Vec::new();
        loop {
            match pcm.next_block(0.0) {
                Ok(Some(block)) => all.extend_from_slice(block),
                Ok(None) => return (all, true),
                Err(_) => return (all, false),
            }
        }
    }

    #[test]
    fn sixteen_bits_are_read_low_byte_first() {
        assert_eq!(
            check(PcmFormat::S16le, &[0x00, 0x40, 0x00, 0x80]),
            (vec![0.5, -1.0], true)
        );
    }

    #[test]
    fn floating_point_is_read_low_byte_first() {
        assert_eq!(
            check(PcmFormat::F32le, &0.25f32.to_le_bytes()),
            (vec![0.25], true)
        );
    }

    #[test]
    fn a_stream_that_ends_inside_a_sample_says_so() {
        assert_eq!(
            check(PcmFormat::S16le, &[0x00, 0x40, 0x00]),
            (vec![0.5], false)
        );
    }
}
