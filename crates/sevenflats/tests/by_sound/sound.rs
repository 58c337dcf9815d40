//! Sound files are decoded to the very samples that were written, whatever their form, and one that
//! breaks off says where.

use crate::flac;
use std::io::Cursor;

use hound::{SampleFormat, WavSpec, WavWriter};
use sevenflats::sound::{Sound, SoundError};

const RATE_HZ: u32 = 44_100;

/// Reads a file to its end: its samples, and the error at its end if there is one.
fn read(file: Vec<u8>) -> (Vec<f32>, Option<SoundError>) {
    let mut sound = Sound::from_bytes(file).unwrap();
    assert_eq!(sound.rate_hz(), RATE_HZ);
    let mut samples = Vec::new();
    loop {
        match sound.next_block() {
            Ok(Some(block)) => samples.extend_from_slice(block),
            Ok(None) => return (samples, None),
            Err(error) => return (samples, Some(error)),
        }
    }
}

/// Every sample comes back, to a step of `resolution`.
fn check(file: Vec<u8>, expected: &[i16], resolution: f32) {
    let (samples, error) = read(file);
    assert!(error.is_none(), "{error:?}");
    assert_eq!(samples.len(), expected.len());
    for (n, (&found, &written)) in samples.iter().zip(expected).enumerate() {
        let written = f32::from(written) / 32_768.0;
        assert!(
            (found - written).abs() <= resolution,
            "sample {n}: {found}, not {written}"
        );
    }
}

/// Ten thousand samples that visit the whole range, by a rule.
fn samples() -> Vec<i16> {
    (0..10_000i32)
        .map(|n| (n.wrapping_mul(7_919) % 65_536 - 32_768) as i16)
        .collect()
}

fn wav(bits: u16, format: SampleFormat, channels: u16) -> Vec<u8> {
    let mut file = Cursor::new(Vec::new());
    let spec = WavSpec {
        channels,
        sample_rate: RATE_HZ,
        bits_per_sample: bits,
        sample_format: format,
    };
    let mut writer = WavWriter::new(&mut file, spec).unwrap();
    for sample in samples() {
        for _ in 0..channels {
            match format {
                SampleFormat::Float => writer.write_sample(f32::from(sample) / 32_768.0).unwrap(),
                SampleFormat::Int if bits == 8 => writer.write_sample(sample >> 8).unwrap(),
                SampleFormat::Int => writer
                    .write_sample(i32::from(sample) << (bits - 16))
                    .unwrap(),
            }
        }
    }
    writer.finalize().unwrap();
    file.into_inner()
}

#[test]
fn wav_is_read_in_every_usual_form() {
    check(wav(16, SampleFormat::Int, 1), &samples(), 0.0);
    check(wav(24, SampleFormat::Int, 1), &samples(), 0.0);
    check(wav(32, SampleFormat::Int, 1), &samples(), 0.0);
    check(wav(32, SampleFormat::Float, 1), &samples(), 0.0);
    check(wav(16, SampleFormat::Int, 2), &samples(), 0.0);
    check(wav(16, SampleFormat::Int, 5), &samples(), 1e-6);
    check(wav(8, SampleFormat::Int, 1), &samples(), 1.0 / 127.0);
}

#[test]
fn flac_is_read_to_the_very_sample() {
    check(flac::bytes(RATE_HZ, &samples()), &samples(), 0.0);
}

#[test]
fn a_file_that_breaks_off_says_how_much_of_it_was_read() {
    let flac = flac::bytes(RATE_HZ, &samples());
    for whole in [wav(16, SampleFormat::Int, 1), flac] {
        let (samples, error) = read(whole[..whole.len() * 6 / 10].to_vec());
        match error {
            Some(SoundError::EndsEarly {
                read_s,
                promised_s: Some(promised_s),
            }) => {
                assert!((read_s - samples.len() as f64 / f64::from(RATE_HZ)).abs() < 1e-9);
                assert!((promised_s - 10_000.0 / f64::from(RATE_HZ)).abs() < 1e-9);
            }
            other => panic!("{other:?}"),
        }
    }
}
