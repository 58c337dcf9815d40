//! A new string: it climbs from far below, and is asked for again at every gap until it holds.

use harp::StringName;

use super::record::Record;
use super::{Round, Say, State};

/// Other strings done, after which a new string is asked for again; our own choice.
const OTHERS: u32 = 5;
/// Seconds after which hearing it again says whether it held: a workshop's two minutes, from memory.
const WAIT_S: f64 = 120.0;
/// Hearings in a row at which it had held.
const HOLDS: u32 = 2;

impl Round {
    /// A new string whose turn it is.
    pub(super) fn new_string_due(&self) -> Option<StringName> {
        let due = |r: &&Record| r.state == State::New && (r.others >= OTHERS || self.waited(r));
        self.records.values().find(due).map(Record::string)
    }

    /// What a new string's still pluck inside the tolerance means.
    pub(super) fn new_in_tune(&mut self, string: StringName, off: f64, u95: f64) -> Vec<Say> {
        let own_s = self.pace.own_s();
        let gap = self
            .records
            .get(&string)
            .is_some_and(|r| r.others >= OTHERS || self.waited(r));
        if self.pin == Some(string) {
            self.pin = None;
        }
        let Some(r) = self.records.get_mut(&string) else {
            return Vec::new();
        };
        if r.told.take().is_some() || !r.reached {
            r.holds = 0;
        } else if gap {
            r.holds += 1;
        }
        // heard at once again it says nothing about holding: the time runs on
        if !r.reached || gap {
            r.others = 0;
            r.done_s = Some(own_s);
        }
        r.reached = true;
        r.turned = false;
        if r.holds >= HOLDS {
            r.state = State::InTune;
            return vec![Say::Holds(string)];
        }
        vec![Say::ReachedForNow {
            string,
            off_cents: off,
            u95_cents: u95,
        }]
    }

    /// Another string was done: new ones have had that much more time.
    pub(super) fn a_gap(&mut self, done: StringName) {
        for r in self.records.values_mut() {
            if r.state == State::New && r.string() != done {
                r.others += 1;
            }
        }
    }

    fn waited(&self, record: &Record) -> bool {
        record
            .done_s
            .is_some_and(|done| self.pace.own_s() - done >= WAIT_S)
    }
}
