//! To be heard again: the strings tuned first, as others moved after them and took some of their pull.

use harp::StringName;

use super::{Round, Say, State};

/// Share of all the round's movement that came after a string, from which it counts as one of the first.
/// With every string moved alike that is the first quarter; our own choice.
const AFTER: f64 = 0.75;
/// Cents moved after it in all, from which hearing it again is worth the time; our own choice, no harp's figure.
const WORTH_CENTS: f64 = 100.0;

impl Round {
    /// When everything was heard once: which strings are to be heard again. Said once in a round, and not
    /// where only some were wanted.
    pub(super) fn call_up_again(&mut self) -> Vec<Say> {
        let few = self.plan.touch_up.is_some() || self.order_was_given;
        if self.again_was_said || few || !self.everything_was_heard() {
            return Vec::new();
        }
        self.again_was_said = true;
        let (strings, moved_cents) = self.tuned_first();
        if strings.is_empty() {
            return Vec::new();
        }
        for string in &strings {
            if let Some(record) = self.records.get_mut(string) {
                record.state = State::Again;
            }
        }
        self.hand = None;
        self.last = None;
        vec![Say::Again {
            strings,
            moved_cents,
        }]
    }

    /// Strings that stand in tune while most of the round's movement came after them.
    fn tuned_first(&self) -> (Vec<StringName>, f64) {
        let all: f64 = self.moves.iter().map(|(_, _, c)| c).sum::<f64>().abs();
        let moved_after = |string: StringName, done_s: f64| {
            let others = self
                .moves
                .iter()
                .filter(|(at, s, _)| *at > done_s && *s != string);
            others.map(|(_, _, c)| c).sum::<f64>().abs()
        };
        let mut first = Vec::new();
        let mut most: f64 = 0.0;
        for string in &self.order {
            let Some(record) = self.records.get(string).filter(|r| r.state.is_in_tune()) else {
                continue;
            };
            let after = record.done_s.map_or(0.0, |done| moved_after(*string, done));
            if after >= WORTH_CENTS && after >= AFTER * all {
                first.push(*string);
                most = most.max(after);
            }
        }
        (first, most)
    }

    fn everything_was_heard(&self) -> bool {
        let open = |s: State| matches!(s, State::NotYetHeard | State::BeforeKnown | State::Moving);
        self.unfinished_hand().is_none()
            && self.pin.is_none()
            && !self
                .order
                .iter()
                .any(|s| self.records.get(s).is_some_and(|r| open(r.state)))
    }
}
