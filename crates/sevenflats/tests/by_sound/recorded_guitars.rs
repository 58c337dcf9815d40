//! Twelve open strings of two guitars (PyPI `guitarsounds` 1.2.0, MIT), with a hand on the instrument
//! and up to three seconds of silence before the pluck: the pluck is found where it is, and called by
//! the note it is, on a harp of every semitone.

use crate::heard::{hear, natural, readings, told};
use crate::recorded::{folder, samples};

/// The files are named for letter and number of the string, 1 the highest: its note is the guitar's usual tuning.
const STRINGS: [(&str, &str); 6] = [
    ("E1", "E4"),
    ("B2", "B3"),
    ("G3", "G3"),
    ("D4", "D3"),
    ("A5", "A2"),
    ("E6", "E2"),
];
const GUITARS: [(&str, &str); 2] = [("Carbon_Guitar", "Carbon"), ("Wood_Guitar", "Wood")];
/// Seconds of each file that are listened to.
const SECONDS: f64 = 8.0;
/// Seconds within which the pluck is found.
const WITHIN_S: f64 = 0.03;
/// How many of the twelve must be found and named, and nothing else be heard: guitars are no harps.
const MOST: usize = 10;

#[test]
fn a_pluck_after_handling_and_silence_is_found_and_named() {
    let standing = natural("semitones");
    let (mut wrong, mut right) = (Vec::new(), 0);
    for (guitar, prefix) in GUITARS {
        for (string, note) in STRINGS {
            let path = folder("guitars/example_sounds")
                .join(guitar)
                .join(format!("{prefix}_{string}.wav"));
            assert!(
                path.is_file(),
                "{} is missing: run ./dev test, which fetches it",
                path.display()
            );
            let (sound, rate_hz) = samples(&path, SECONDS);
            let plucked_s = loud_from_s(&sound, f64::from(rate_hz));
            let heard = hear(&standing, &sound, rate_hz, None);
            let finals: Vec<_> = readings(&heard).into_iter().filter(|r| r.last).collect();
            let here = |at_s: f64| (at_s - plucked_s).abs() <= WITHIN_S;
            let ok = !finals.is_empty()
                && finals
                    .iter()
                    .all(|r| here(r.at_s) && r.string.is_some_and(|s| s.to_string() == note));
            let at: Vec<String> = finals.iter().map(|r| format!("{:.2} s", r.at_s)).collect();
            let line = format!(
                "{prefix} {note} plucked at {plucked_s:.2} s: at {at:?} {}",
                told(&heard)
            );
            println!("{line}");
            match ok {
                true => right += 1,
                false => wrong.push(line),
            }
        }
    }
    assert!(right >= MOST, "{right} of 12, {MOST} needed: {wrong:#?}");
}

/// When the sound first comes within 10 dB of its loudest, over 5 ms at a time.
fn loud_from_s(sound: &[f32], rate_hz: f64) -> f64 {
    let hop = (0.005 * rate_hz) as usize;
    let frames: Vec<f64> = sound
        .chunks(hop)
        .map(|c| c.iter().map(|y| f64::from(*y).powi(2)).sum())
        .collect();
    let loudest = frames.iter().fold(0.0f64, |m, e| m.max(*e));
    let first = frames.iter().position(|e| *e > 0.1 * loudest).unwrap();
    first as f64 * 0.005
}
