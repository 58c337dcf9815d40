//! Makes the regulation check that is played to the page: `page_check OUT.wav OUT.json`, a WAV file of 16 bits at 48 kHz, and
//! as JSON what is true of every pluck of it.
//!
//! The three F from the treble down, on an invented harp of 47 strings with its pedals up, in the middle, down and up again:
//! the F pedal's naturals are nine cents short, and the sharp of F5 is eight too far.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::disallowed_macros,
    reason = "it writes two files and says what went wrong"
)]

use std::error::Error;
use std::fs;

use harp::{Harp, Position, Setup};
use pitch::ReferencePitch;
use serde_json::json;
use sevenflats::demo::write_wav;

/// Seconds of a silent room before the check, for the clicks that begin it, and after it: a browser's made-up microphone
/// repeats the last moment of a file for ever.
const BEFORE_S: f64 = 6.0;
const AFTER_S: f64 = 0.5;
/// As they are asked for.
const ORDER: [&str; 3] = ["F6", "F5", "F4"];
/// The noise of that room, of full scale: silence in every bit is a microphone that was switched off.
const ROOM: f32 = 2e-4;

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let [wav, truth] = &words[..] else {
        return Err("page_check OUT.wav OUT.json".into());
    };
    let harp = Harp::named("pedal47")?;
    let moves = [
        Position::Open,
        Position::Natural,
        Position::Sharp,
        Position::Open,
    ];
    let standing = |position| {
        let open = Setup::open(ReferencePitch::A440);
        harp.standing(&Setup { position, ..open })
    };
    let standings = moves.map(standing).into_iter();
    let standings = standings.collect::<Result<Vec<_>, _>>()?;
    // pitches against their targets: what is short at natural is as short at sharp
    let error = |string: &str, number: usize| match (string, number) {
        ("F5", 2) => -9.0 + 8.0,
        (_, 1 | 2) if string.starts_with('F') => -9.0,
        _ => 0.0,
    };
    let round = pluck::player::checked(&standings, &ORDER, error, 5)?;
    let performance = round.perform()?;
    let plucks = performance.truth().iter().map(|pluck| {
        json!({
            "at_s": pluck.at_s + BEFORE_S,
            "string": pluck.string,
            "heard_hz": pluck.sounding_hz,
        })
    });
    let told = json!({
        "rate_hz": round.rate_hz,
        "seconds": BEFORE_S + round.seconds + AFTER_S,
        "a4_hz": 440,
        "plucks": plucks.collect::<Vec<_>>(),
    });
    fs::write(truth, told.to_string())?;
    let rate_hz = round.rate_hz;
    let samples = room(BEFORE_S, rate_hz).chain(performance.flatten());
    let samples = samples.chain(room(AFTER_S, rate_hz));
    Ok(write_wav(wav.as_ref(), rate_hz, samples)?)
}

/// The noise of a silent room.
fn room(seconds: f64, rate_hz: u32) -> impl Iterator<Item = f32> {
    let mut state = 1_u32;
    let samples = (seconds * f64::from(rate_hz)) as usize;
    std::iter::repeat_with(move || {
        // a linear congruence with the multiplier of Numerical Recipes, from memory; any that is odd would do
        state = state.wrapping_mul(1_664_525).wrapping_add(1);
        ROOM * ((state >> 16) as f32 / 32_768.0 - 1.0)
    })
    .take(samples)
}
