//! Which string is asked for: the one in hand until it is done, then what the order says, from wherever she plucked.

use harp::StringName;

use super::record::Record;
use super::{Phase, Round, Say, State, Why};

/// Plucks that could not say, after which the round goes on.
const NEAR_ENOUGH: u32 = 2;

impl Round {
    /// The string to pluck next; `None` when nothing is asked for.
    pub fn next(&self) -> Option<StringName> {
        self.next_and_why().map(|(string, _)| string)
    }

    pub(super) fn next_and_why(&self) -> Option<(StringName, Why)> {
        if let Some(pinned) = self.pin.or(self.asked) {
            return Some((pinned, Why::Asked));
        }
        if let Some(hand) = self.unfinished_hand() {
            return Some((hand, Why::InOrder));
        }
        let new = self.new_string_due();
        if let Some(string) = new {
            return Some((string, Why::New));
        }
        if let Some(string) = self.after_last(|r| is_due(r.state)) {
            return Some((string, Why::InOrder));
        }
        if let Some(string) = self.after_last(|r| r.state == State::Again) {
            return Some((string, Why::Again));
        }
        let waiting = self.records.values().find(|r| r.state == State::New);
        waiting.map(|r| (r.string(), Why::New))
    }

    /// The string whose pin she turns, as long as something is to be done about it.
    pub(super) fn unfinished_hand(&self) -> Option<StringName> {
        let record = self.records.get(&self.hand?)?;
        let unfinished = match record.state {
            State::BeforeKnown | State::Moving => true,
            State::New => !record.reached,
            State::Near => record.near < NEAR_ENOUGH,
            _ => false,
        };
        unfinished.then(|| record.string())
    }

    /// What is asked for now, and how many are left.
    pub(super) fn onward(&mut self) -> Vec<Say> {
        let mut says = self.call_up_again();
        match self.next_and_why() {
            Some((string, why)) if self.said_next != Some(string) => {
                self.said_next = Some(string);
                says.push(Say::Next { string, why });
                let strings = self.left();
                says.push(Say::Left {
                    strings,
                    minutes: self.pace.minutes(strings),
                });
            }
            Some(_) => {}
            None if !self.all_heard_was_said => {
                self.all_heard_was_said = true;
                says.push(Say::AllHeard);
            }
            None => {}
        }
        says
    }

    /// The order is another from here on, and begins with its first string.
    pub(super) fn in_this_order(&mut self, strings: &[StringName]) -> Vec<Say> {
        if self.phase == Phase::Finished {
            return Vec::new();
        }
        let mut order: Vec<StringName> = Vec::new();
        for string in strings {
            if self.records.contains_key(string) && !order.contains(string) {
                order.push(*string);
            }
        }
        self.order = order;
        self.order_was_given = true;
        self.last = None;
        // what is asked for next is said once the string in hand is out of it
        if self.unfinished_hand().is_some() {
            return Vec::new();
        }
        self.onward_if_running()
    }

    /// The order goes on from this string; from where it was, for a string that is none of those asked for.
    pub(super) fn went_on_from(&mut self, string: StringName) {
        if self.order.contains(&string) {
            self.last = Some(string);
        }
    }

    /// The string that comes next if the one in hand is left as it is.
    pub(super) fn then(&self) -> Option<StringName> {
        self.after_last(|r| is_due(r.state) && self.hand != Some(r.string()))
    }

    /// How many strings are still asked for.
    pub fn left(&self) -> usize {
        let asked_for = |s: &&StringName| {
            self.records
                .get(s)
                .is_some_and(|r| is_due(r.state) || r.state == State::Again)
        };
        let new = self.records.values().filter(|r| r.state == State::New);
        self.order.iter().filter(asked_for).count() + new.count()
    }

    /// The first string of the order that is wanted, from the last one on and round again.
    fn after_last(&self, wanted: impl Fn(&Record) -> bool) -> Option<StringName> {
        let from = self
            .last
            .and_then(|last| self.order.iter().position(|s| *s == last))
            .map_or(0, |at| at + 1);
        let round_again = self.order.iter().cycle().skip(from).take(self.order.len());
        round_again
            .filter(|s| self.records.get(s).is_some_and(&wanted))
            .copied()
            .next()
    }
}

fn is_due(state: State) -> bool {
    matches!(
        state,
        State::NotYetHeard | State::BeforeKnown | State::Moving
    )
}
