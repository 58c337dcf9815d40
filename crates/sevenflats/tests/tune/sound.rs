//! Rounds made for a test: plucks by the plainest formula, one after the other.

use std::path::Path;

use pitch::{ReferencePitch, raise};
use tempfile::tempdir;

use crate::command::{Run, run};
use crate::wav;

pub(crate) const RATE_HZ: u32 = 48_000;
/// From pluck to pluck, in seconds: a quarter of a second of silence is at its beginning.
const EACH_S: f64 = 2.5;
/// The end of a pluck, over which it is faded out, in seconds.
const FADE_S: f64 = 0.2;

/// What is plucked: a pitch at A = 440, and how far off it is in cents.
pub(crate) type Plucks<'a> = &'a [(&'a str, f64)];

/// Its samples.
pub(crate) fn samples(plucks: Plucks<'_>) -> Vec<f32> {
    let fade = FADE_S * f64::from(RATE_HZ);
    let one = |&(pitch, off_cents): &(&str, f64)| {
        let hz = raise(ReferencePitch::A440.hz(pitch.parse().unwrap()), off_cents);
        let pluck = wav::pluck(hz, RATE_HZ, EACH_S);
        let length = pluck.len();
        let faded = move |(at, x): (usize, f32)| x * ((length - at) as f64 / fade).min(1.0) as f32;
        pluck.into_iter().enumerate().map(faded)
    };
    plucks.iter().flat_map(one).collect()
}

/// The same as raw samples of 16 bits.
pub(crate) fn s16le(samples: &[f32]) -> Vec<u8> {
    let wide = samples.iter().map(|x| (x * 32_767.0) as i16);
    wide.flat_map(i16::to_le_bytes).collect()
}

/// Tunes by these plucks, in a folder of its own.
pub(crate) fn tune(plucks: Plucks<'_>, options: &[&str]) -> Run {
    let folder = tempdir().unwrap();
    tune_in(folder.path(), plucks, options)
}

/// Tunes by these plucks, in this folder; where there are none, by a second of silence.
pub(crate) fn tune_in(folder: &Path, plucks: Plucks<'_>, options: &[&str]) -> Run {
    let mut samples = samples(plucks);
    if samples.is_empty() {
        samples = vec![0.0; RATE_HZ as usize];
    }
    wav::write(&folder.join("round.wav"), RATE_HZ, 1, &samples);
    let words = [&["tune", "--from", "round.wav"], options].concat();
    run(folder, &words, &[])
}

/// The last line of `--json`: what it says of one string.
pub(crate) fn string_of(run: &Run, name: &str) -> serde_json::Value {
    let summary = run.lines().pop().unwrap();
    assert_eq!(summary["kind"], "summary", "{}", run.out);
    let strings = summary["strings"].as_array().unwrap();
    let found = strings.iter().find(|s| s["string"] == name);
    found.unwrap().clone()
}

/// What was said, with `--json`: the words of 'say', in order.
pub(crate) fn says(run: &Run) -> Vec<String> {
    let says = run.of_kind("say").into_iter();
    says.map(|s| s["say"].as_str().unwrap().to_owned())
        .collect()
}

/// The strings that are asked for, in order.
pub(crate) fn asked(run: &Run) -> Vec<String> {
    let says = run.of_kind("say").into_iter();
    says.filter(|s| s["say"] == "next")
        .map(|s| s["string"].as_str().unwrap().to_owned())
        .collect()
}
