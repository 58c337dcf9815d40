//! Standing words and short forms in English.

use harp::Colour;

use super::English;
use crate::round::words::speaks::{Phrases, Side};
use crate::round::{Amount, State};
use crate::{Direction, Reason};

impl Phrases for English {
    fn care(&self) -> &'static str {
        "Before a key is turned far: is it on the pin of the string that you pluck? Keep your eyes out of
the plane of the strings, turn in small steps and pluck after each. What you cannot explain, leave
to a qualified harp technician."
    }

    fn which_way_the_key_turns(&self, way: Direction) -> &'static str {
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

    fn reason(&self, reason: Reason) -> &'static str {
        reason.as_str()
    }

    fn advice(&self, reason: Reason) -> &'static str {
        match reason {
            Reason::TooShort => "pluck it again and let it ring",
            Reason::TwoStrings => "damp the others and pluck it alone",
            Reason::TooNoisy => "wait for a quieter moment, or bring the microphone nearer",
            Reason::AudioBroke => "close what else is recording, and pluck it again",
            Reason::NoString => {
                "are pedals and levers as you said? A new string is to be named first"
            }
            Reason::NotSure => "pluck its neighbour, or name it",
        }
    }

    fn way(&self, way: Direction) -> &'static str {
        match way {
            Direction::Up => "up",
            Direction::Down => "down",
            Direction::There => "there",
        }
    }

    fn amount(&self, amount: Amount) -> &'static str {
        amount.as_str()
    }

    fn how_far(&self, way: Direction, amount: Amount) -> String {
        match way {
            Direction::There => self.way(way).to_owned(),
            _ => format!("{} {}", self.way(way), self.amount(amount)),
        }
    }

    fn state(&self, state: State) -> &'static str {
        match state {
            State::BeforeKnown => "to be turned",
            other => other.as_str(),
        }
    }

    fn enough_at_a_glance(&self) -> &'static str {
        "enough"
    }

    fn by_colour(&self, colour: Colour, wire: bool) -> &'static str {
        match (colour, wire) {
            (Colour::Red, false) => "the red string",
            (Colour::Red, true) => "the red wire",
            (Colour::Dark, false) => "the black or blue string",
            (Colour::Dark, true) => "the dark wire",
            (Colour::Metallic, _) | (Colour::Plain, true) => "a wire",
            (Colour::Plain, false) => "a white string",
        }
    }

    fn a_tuner_shows(&self, pitch: &str) -> String {
        format!("a tuner shows {pitch}")
    }

    fn then(&self, string: &str, side: Option<Side>) -> String {
        match side {
            Some(Side::Below) => format!("then {string} below"),
            Some(Side::Above) => format!("then {string} above"),
            None => format!("then {string} again"),
        }
    }
}
