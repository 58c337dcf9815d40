//! The fuzz targets' entry points, as property tests that run on a stable toolchain: whatever comes
//! in, each of them returns.

#![allow(
    clippy::unwrap_used,
    reason = "a test that cannot prepare its case stops there"
)]

use proptest::prelude::*;
use sevenflats::entry;

/// How many cases each property is tried on: a sample, or with `SEVENFLATS_LONG` many.
fn cases(sample: u32, long: u32) -> ProptestConfig {
    let cases = if option_env_long() { long } else { sample };
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

#[allow(
    clippy::disallowed_methods,
    reason = "the one switch of the long checks"
)]
fn option_env_long() -> bool {
    std::env::var("SEVENFLATS_LONG").is_ok()
}

proptest! {
    #![proptest_config(cases(2_000, 50_000))]

    #[test]
    fn any_bytes_are_read_or_refused_as_a_harp_file(bytes: Vec<u8>) {
        entry::harp_file(&bytes);
    }

    #[test]
    fn any_text_is_read_or_refused_as_a_setting(text in "[{}\":,DCBEFGAH01 -]{0,40}|\\PC{0,20}") {
        entry::setting(text.as_bytes());
    }

    #[test]
    fn any_text_is_read_or_refused_as_a_name(text in "[A-H0-9#b♭n,-]{0,6}|\\PC{0,8}") {
        entry::name(text.as_bytes());
    }

    #[test]
    fn any_request_is_answered_by_a_file_or_by_none(
        path in "/(index.html)?[%.a-f0-9/?\\\\]{0,12}|(http://)?\\PC{0,12}",
        host in "(localhost|127.0.0.1|\\[::1\\])?:?(4747)?|\\PC{0,8}",
        rest in "((br|gzip|identity|\\*)[;q=01.,\" *W/]{0,9}){0,3}\n\\PC{0,20}",
    ) {
        entry::request(format!("{path}\n{host}\n{rest}").as_bytes());
    }
}

proptest! {
    #![proptest_config(cases(12, 400))]

    #[test]
    fn any_bytes_are_heard_as_samples(bytes in samples()) {
        entry::samples(&bytes);
    }

    #[test]
    fn a_damaged_score_is_planned_without_fault_or_refused(file in a_damaged_score()) {
        entry::score_file(&file);
    }

    #[test]
    fn a_damaged_wav_file_is_read_or_refused(file in damaged(wav())) {
        entry::sound_file(&file);
    }
}

proptest! {
    #![proptest_config(cases(200, 4_000))]

    #[test]
    fn a_harp_file_with_a_line_damaged_is_read_or_refused(file in damaged(harp_file())) {
        entry::harp_file(&file);
    }

    #[test]
    fn bytes_that_begin_like_a_sound_are_read_or_refused(
        start in prop::sample::select(vec![&b"RIFF"[..], b"fLaC", b"ID3", b"\xff\xfb\x90", b"\xff\xf8"]),
        rest in prop::collection::vec(any::<u8>(), 0..400),
    ) {
        entry::sound_file(&[start, &rest].concat());
    }
}

/// A file of which a few bytes are changed, and the end may be missing.
fn damaged(whole: Vec<u8>) -> impl Strategy<Value = Vec<u8>> {
    let length = whole.len();
    let places = prop::collection::vec((0..length.min(200), any::<u8>()), 0..4);
    (places, length / 2..=length).prop_map(move |(places, end)| {
        let mut file = whole.clone();
        for (place, byte) in places {
            file[place] = byte;
        }
        file.truncate(end);
        file
    })
}

/// One of our scores with a few of its words put in each other's place, or some of its bytes changed.
fn a_damaged_score() -> impl Strategy<Value = Vec<u8>> {
    let scores = [
        &include_bytes!("plan/scores/contract.musicxml")[..],
        include_bytes!("plan/scores/volta.musicxml"),
        include_bytes!("plan/scores/diminished-sevenths.musicxml"),
        include_bytes!("plan/scores/two-movements.musicxml"),
    ];
    let swaps = prop::collection::vec((any::<usize>(), any::<usize>()), 0..12);
    let bytes = prop::collection::vec((any::<usize>(), any::<u8>()), 0..3);
    let score = prop::sample::select(scores.to_vec());
    (score, swaps, bytes, any::<bool>()).prop_map(|(score, swaps, bytes, cut)| {
        let mut parts: Vec<&[u8]> = score.split_inclusive(|byte| *byte == b'>').collect();
        let count = parts.len();
        for (one, other) in swaps {
            parts.swap(one % count, other % count);
        }
        let mut score = parts.concat();
        for (place, byte) in &bytes {
            let place = place % score.len();
            score[place] = *byte;
        }
        let length = score.len();
        score.truncate(if cut { length * 3 / 4 } else { length });
        score
    })
}

/// Noise, silence, squares at the limit and numbers that are none, up to a second of each.
fn samples() -> impl Strategy<Value = Vec<u8>> {
    let stretch =
        (any::<[u8; 8]>(), 1usize..6_000).prop_map(|(pattern, times)| pattern.repeat(times));
    let noise = prop::collection::vec(any::<u8>(), 0..20_000);
    prop::collection::vec(prop_oneof![stretch, noise], 0..6).prop_map(|parts| parts.concat())
}

/// Half a second of a plucked string, as a WAV file of 16 bits.
fn wav() -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    let spec = hound::WavSpec {
        channels: 1,
        sample_rate: 48_000,
        bits_per_sample: 16,
        sample_format: hound::SampleFormat::Int,
    };
    let mut writer = hound::WavWriter::new(&mut bytes, spec).unwrap();
    for n in 0..24_000 {
        let t = f64::from(n) / 48_000.0;
        let sample = (-3.0 * t).exp() * (std::f64::consts::TAU * 415.305 * t).sin();
        writer.write_sample((sample * 20_000.0) as i16).unwrap();
    }
    writer.finalize().unwrap();
    bytes.into_inner()
}

fn harp_file() -> Vec<u8> {
    include_bytes!("my_harp.toml").to_vec()
}
