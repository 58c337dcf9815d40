//! What a round comes to: before and after of every string, and what is left to do.

use harp::StringName;

use super::{Kept, Round, State, Warned};

/// A round in figures.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Every string of the plan, from the bass.
    pub strings: Vec<Summed>,
    /// Minutes of the round, pauses left out.
    pub minutes: f64,
    /// Strings asked for that are not done yet.
    pub left: usize,
    /// Strings to be heard again: said so, near and unsure, or new.
    pub again: Vec<StringName>,
    /// Every warning, in order.
    pub warnings: Vec<Warned>,
}

/// One string's part of a summary.
#[derive(Clone, Debug, PartialEq)]
pub struct Summed {
    /// The string.
    pub string: StringName,
    /// As it was found: its first reading in its position.
    pub before: Option<Kept>,
    /// As it was left: its last reading in its position.
    pub after: Option<Kept>,
    /// How many readings it was given.
    pub plucks: usize,
    /// How it stands.
    pub state: State,
    /// Whether a new string was put on.
    pub fitted: bool,
}

impl Round {
    /// The round so far.
    pub fn summary(&self) -> Summary {
        let strings = self.records.values().map(|r| Summed {
            string: r.string(),
            before: r.before(),
            after: r.after(),
            plucks: r.kept.len(),
            state: r.state,
            fitted: r.fitted,
        });
        let to_hear = |s: &State| matches!(s, State::Again | State::Near | State::New);
        let again = self.records.values().filter(|r| to_hear(&r.state));
        Summary {
            strings: strings.collect(),
            minutes: self.pace.own_s() / 60.0,
            left: self.left(),
            again: again.map(|r| r.string()).collect(),
            warnings: self.warned.clone(),
        }
    }
}
