//! Makes what the page's own checks play to it: an invented round as a WAV file of 16 bits at 48 kHz, and beside it, as JSON,
//! what is true of every pluck of it.
//!
//! `page_round OUT.wav OUT.json` makes a round of three quarters of a minute: the lowest octave, a string an octave from the
//! one that is meant, a neighbour a semitone away that still rings, a pin that is turned. `page_round OUT.wav OUT.json apart`
//! makes single plucks, each damped before the next, to be played one by one. All strings are invented.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::disallowed_macros,
    reason = "it writes two files and says what went wrong"
)]

use std::error::Error;
use std::fs;

use harp::{Harp, Setup};
use pitch::ReferencePitch;
use pluck::{Event, Plucked, Room, Round, RoundString};
use serde_json::{Value, json};
use sevenflats::demo::write_wav;

/// Seconds before the first pluck, for the clicks that begin a round.
const FIRST_S: f64 = 4.0;
/// Seconds of silence at the end: a browser's made-up microphone repeats the last moment of a file for ever.
const SILENCE_S: f64 = 0.5;
/// Seconds from one single pluck to the next, and from the pluck to its damping.
const APART_S: f64 = 3.0;
const DAMPED_S: f64 = 1.8;
/// How far the noise of the room lies under a single pluck, in dB: each is cut out of it, and where it is cut must not be heard.
const STILL_DB: f64 = 80.0;

/// Strings found off, in cents; all others are found in tune.
const OFF: [(&str, f64); 10] = [
    ("G3", -17.0),
    ("A3", 8.0),
    ("D4", -9.0),
    ("C4", 6.5),
    ("E4", -11.0),
    ("F4", 7.0),
    ("E1", -14.0),
    ("G1", 12.0),
    ("A5", -8.0),
    ("F7", 15.0),
];

/// Plucks of the round: seconds after the one before, and the string. The order that is asked for begins with G3 and goes
/// down: D4 and C4 are an octave from what is meant. F4 is plucked while E4, a semitone below it on an open pedal harp, rings.
const PLUCKS: [(f64, &str); 16] = [
    (0.0, "G3"),
    (4.0, "G3"),
    (2.6, "F3"),
    (2.4, "A3"),
    (2.4, "D4"),
    (2.4, "D3"),
    (2.4, "C4"),
    (2.4, "E4"),
    (1.6, "F4"),
    (2.6, "E1"),
    (2.8, "G1"),
    (2.8, "A2"),
    (2.4, "A4"),
    (2.4, "A5"),
    (2.4, "D5"),
    (2.4, "F7"),
];

/// Strings of the single plucks.
const SINGLE: [&str; 12] = [
    "G3", "F3", "A3", "D3", "C3", "B2", "A4", "D4", "E4", "F4", "A5", "D5",
];

fn main() -> Result<(), Box<dyn Error>> {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let (wav, truth, events, noise_under_db) =
        match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
            [wav, truth] => (wav, truth, round_events(), Room::QUIET.noise_under_db),
            [wav, truth, "apart"] => (wav, truth, single_events(), STILL_DB),
            _ => return Err("page_round OUT.wav OUT.json [apart]".into()),
        };
    let standing = Harp::named("pedal47")?.standing(&Setup::open(ReferencePitch::A440))?;
    let mut strings = RoundString::of_harp(&standing);
    for string in &mut strings {
        string.false_cents = 0.3;
        if let Some((_, off)) = OFF.iter().find(|(name, _)| *name == string.name) {
            string.off_cents = *off;
        }
    }
    let mut round = Round::new(strings, events, 11);
    round.room.noise_under_db = noise_under_db;
    let performance = round.perform()?;
    fs::write(truth, told(&round, performance.truth()).to_string())?;
    let silence = (SILENCE_S * f64::from(round.rate_hz)) as usize;
    let samples = performance
        .flatten()
        .chain(std::iter::repeat_n(0.0, silence));
    Ok(write_wav(wav.as_ref(), round.rate_hz, samples)?)
}

fn round_events() -> Vec<Event> {
    let mut events = Vec::new();
    let mut at_s = FIRST_S;
    for (after_s, string) in PLUCKS {
        at_s += after_s;
        events.push(Event::pluck(at_s, string));
    }
    // the first pluck's pin, while it rings
    events.push(Event::turn(FIRST_S + 1.2, "G3", -0.5, 1.6));
    events
}

fn single_events() -> Vec<Event> {
    let mut events = Vec::new();
    let mut at_s = FIRST_S;
    for string in SINGLE {
        events.push(Event::pluck(at_s, string));
        events.push(Event::damp(at_s + DAMPED_S, string));
        at_s += APART_S;
    }
    events
}

/// What is true of every pluck; where the pin was turned, of its beginning.
fn told(round: &Round, plucks: &[Plucked]) -> Value {
    let pluck = |pluck: &Plucked| {
        json!({
            "at_s": pluck.at_s,
            "string": pluck.string,
            "target_hz": pluck.target_hz,
            "heard_hz": pluck.sounding_hz,
            "off_cents": pitch::cents(pluck.target_hz, pluck.sounding_hz),
            "turned": !pluck.course.is_empty(),
        })
    };
    json!({
        "rate_hz": round.rate_hz,
        "seconds": round.seconds + SILENCE_S,
        "a4_hz": 440,
        "harp": "pedal47",
        "plucks": plucks.iter().map(pluck).collect::<Vec<_>>(),
    })
}
