//! Sound heard by the library itself, for tests that make their own.

use harp::{Harp, Position, Setup, Standing, StringName};
use pitch::ReferencePitch;
use tuning::{Ear, Heard, Listening, Reading};

/// The strings of a harp with every pedal on natural, at A4 = 440 Hz.
pub(crate) fn natural(harp: &str) -> Vec<Standing> {
    let setup = Setup {
        position: Position::Natural,
        ..Setup::open(ReferencePitch::A440)
    };
    Harp::named(harp).unwrap().standing(&setup).unwrap()
}

/// A new ear for these strings, listening for 0.6 s, guided on one of them or not.
pub(crate) fn ear(standing: &[Standing], rate_hz: u32, guided: Option<StringName>) -> Ear {
    let listening = Listening {
        guided,
        ..Listening::new(ReferencePitch::A440)
    };
    Ear::new(rate_hz, standing.to_vec(), listening).unwrap()
}

/// All that a new ear says of a sound.
pub(crate) fn hear(
    standing: &[Standing],
    sound: &[f32],
    rate_hz: u32,
    guided: Option<StringName>,
) -> Vec<Heard> {
    let mut ear = ear(standing, rate_hz, guided);
    let mut heard = ear.push(sound);
    heard.extend(ear.finish());
    heard
}

/// The readings among them.
pub(crate) fn readings(heard: &[Heard]) -> Vec<&Reading> {
    heard
        .iter()
        .filter_map(|h| match h {
            Heard::Reading(reading) => Some(reading),
            _ => None,
        })
        .collect()
}

/// What was heard, shortly: for the list of what failed.
pub(crate) fn told(heard: &[Heard]) -> String {
    let words: Vec<String> = heard
        .iter()
        .map(|h| match h {
            Heard::Reading(r) => format!(
                "{} {:+.1}±{:.1} {:?} {:?}{}",
                r.string.map_or_else(|| "-".to_owned(), |s| s.to_string()),
                r.off_cents,
                r.u95_cents,
                r.direction,
                r.candidates
                    .iter()
                    .map(ToString::to_string)
                    .collect::<Vec<_>>(),
                if r.last { "" } else { " early" }
            ),
            Heard::Refused(r) => format!("refused: {} ({})", r.reason.as_str(), r.detail),
            Heard::Warning(w) => format!("warning: {}", w.warning.as_str()),
        })
        .collect();
    words.join("; ")
}
