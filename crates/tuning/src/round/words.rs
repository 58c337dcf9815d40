//! English sentences for what a round says: short, as a teacher would say them.
//!
//! Directions are up and down. 'Flat' and 'sharp' are positions of a pedal: every string is called flat.

mod happened;
mod warned;

use harp::StringName;
use pitch::{Letter, SpelledPitch, signed};

use super::{Amount, Say, Turn};
use crate::Direction;

pub use happened::advice;

/// How strings, letters and pitches are written: the octave's number and the language are the reader's choice.
pub struct Names<'a> {
    /// A string: 4G.
    pub string: &'a dyn Fn(StringName) -> String,
    /// A letter: G.
    pub letter: &'a dyn Fn(Letter) -> String,
    /// A pitch: G♭3.
    pub pitch: &'a dyn Fn(SpelledPitch) -> String,
}

/// The usual cautions, once, before a key is turned far.
pub const CARE: &str = "Before a key is turned far: is it on the pin of the string that you pluck? Keep your eyes out of
the plane of the strings, turn in small steps and pluck after each. What you cannot explain, leave
to a qualified harp technician.";

/// Which way the key turns: usual practice, from memory; harps differ, and so it is to be tried.
pub fn which_way_the_key_turns(way: Direction) -> &'static str {
    match way {
        Direction::Up => {
            "Up is usually away from you, towards the column; some harps differ. Turn a hair and listen."
        }
        Direction::Down => {
            "Down is usually towards you, away from the column; some harps differ. Turn a hair and listen."
        }
        Direction::There => "Leave the key.",
    }
}

/// What is said, as an English sentence or a few.
///
/// ```
/// use tuning::round::{Names, Say, sentence};
/// let names = Names {
///     string: &|s| s.harp_number(),
///     letter: &|l| l.to_string(),
///     pitch: &|p| p.pretty(),
/// };
/// assert_eq!(sentence(&Say::Enough("G3".parse()?), &names), "4G: enough. Leave the key and pluck it still.");
/// # Ok::<(), harp::StringNameError>(())
/// ```
pub fn sentence(say: &Say, names: &Names) -> String {
    let name = |s: &StringName| (names.string)(*s);
    match say {
        Say::Turn(turn) => turned(turn, names),
        Say::InTune {
            string, off_cents, ..
        } => {
            format!("{}: in tune ({}).", name(string), signed(*off_cents))
        }
        Say::Near {
            string,
            u95_cents,
            octave_above,
            ..
        } => {
            let start = format!(
                "{}: near, cannot say nearer than ±{u95_cents:.1} cents.",
                name(string)
            );
            match octave_above {
                Some(above) => {
                    format!(
                        "{start} Pluck it again, or compare it by ear with {}.",
                        name(above)
                    )
                }
                None => format!("{start} Pluck it again."),
            }
        }
        Say::PluckStill(string) => {
            format!(
                "{}: it moved while it rang. Leave the key and pluck it still.",
                name(string)
            )
        }
        Say::Which(strings) => which(strings, names),
        Say::Sounds {
            string, off_cents, ..
        } => {
            format!("{}: {} so far.", name(string), high_or_low(*off_cents))
        }
        Say::Moving {
            string,
            off_cents,
            way,
            ..
        } => {
            let still = match way {
                Direction::Up => "still up",
                Direction::Down => "down",
                Direction::There => "there",
            };
            format!("{}: {}, {still}.", name(string), signed(*off_cents))
        }
        Say::Enough(string) => {
            format!(
                "{}: enough. Leave the key and pluck it still.",
                name(string)
            )
        }
        Say::Warning(warning) => warned::sentence(warning, names),
        other => happened::sentence(other, names),
    }
}

fn turned(turn: &Turn, names: &Names) -> String {
    let string = (names.string)(turn.string);
    let new = if turn.climbing { " (new)" } else { "" };
    let start = format!("{string}{new}: {}.", high_or_low(turn.off_cents));
    let by = match turn.amount {
        Amount::Half => format!(
            "{} at most, {:.0} cents; then pluck it again",
            turn.amount.as_str(),
            turn.by_cents
        ),
        amount => amount.as_str().to_owned(),
    };
    match (turn.way, turn.amount) {
        (Direction::Down, Amount::Half) => format!("{start} Ease it down {by}."),
        (Direction::Down, _) => format!("{start} Down {by}, to just under, then come up."),
        (Direction::Up, _) => format!("{start} Up {by}."),
        (Direction::There, _) => start,
    }
}

fn which(strings: &[StringName], names: &Names) -> String {
    let all: Vec<String> = strings.iter().map(|s| (names.string)(*s)).collect();
    match all.as_slice() {
        [] => "Which string it was cannot be said: pluck its neighbour, or name it.".to_owned(),
        [only] => {
            format!("It may be {only}, but that is not sure: pluck it again alone, or name it.")
        }
        [a, b] => format!(
            "{a} or {b}: each is possible, so no direction. Pluck the other one, then this again; or name it."
        ),
        _ => format!(
            "{}: each is possible, so no direction. Pluck a neighbour, or name it.",
            all.join(" or ")
        ),
    }
}

fn high_or_low(off: f64) -> String {
    let word = if off < 0.0 { "low" } else { "high" };
    format!("{:.1} cents {word}", off.abs())
}

/// A4, G4 and F4; one alone; none at all.
fn listed(strings: &[StringName], names: &Names) -> String {
    let all: Vec<String> = strings.iter().map(|s| (names.string)(*s)).collect();
    match all.split_last() {
        Some((last, [])) => last.clone(),
        Some((last, rest)) => format!("{} and {last}", rest.join(", ")),
        None => String::new(),
    }
}
