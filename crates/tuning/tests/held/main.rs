//! The A from the sound of a held note.
//!
//! ISO 16:1975: A4 is 440 Hz (title page seen, text quoted; reference/pitch-arithmetic). Other notes stand to it in equal
//! temperament. The sounds are made by formulas, for their pitch must be known; no recorded oboe is among them.
#![allow(clippy::unwrap_used, clippy::panic, reason = "a test may fail loudly")]

mod any_sound;
mod refused;
mod right;
mod sounds;

use pitch::SpelledPitch;
use tuning::round::{HeardNote, HeldEar};

/// What is heard of `named` in a sound at `rate`.
fn hear(named: &str, sound: &[f64], rate: u32) -> HeardNote {
    let named: SpelledPitch = named.parse().unwrap();
    let mut ear = HeldEar::new(rate, named).unwrap();
    let sound: Vec<f32> = sound.iter().map(|y| *y as f32).collect();
    for piece in sound.chunks(1000) {
        ear.push(piece);
    }
    ear.finish()
}

/// The pitch of a note where A4 is `a4`, by twelfth roots of two.
fn tempered(named: &str, a4: f64) -> f64 {
    let key = named.parse::<SpelledPitch>().unwrap().midi();
    a4 * (f64::from(key - 69) / 12.0).exp2()
}

fn add(a: &[f64], b: &[f64], gain: f64) -> Vec<f64> {
    a.iter().zip(b).map(|(a, b)| a + gain * b).collect()
}
