//! Her own pace: the seconds that she takes for a string.

use crate::median::median;

/// Strings that must be done before anything is said of minutes.
const LEAST: usize = 3;

/// The round's own time, pauses left out, and how long each string took.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Pace {
    now_s: f64,
    running_since_s: Option<f64>,
    before_s: f64,
    last_done_s: f64,
    taken_s: Vec<f64>,
}

impl Pace {
    /// The latest second known; time does not go back.
    pub(crate) fn clock(&mut self, at_s: f64) {
        self.now_s = self.now_s.max(at_s);
    }

    /// The latest second known.
    pub(crate) fn now_s(&self) -> f64 {
        self.now_s
    }

    pub(crate) fn go(&mut self) {
        self.running_since_s.get_or_insert(self.now_s);
    }

    pub(crate) fn stop(&mut self) {
        if let Some(since) = self.running_since_s.take() {
            self.before_s += self.now_s - since;
        }
    }

    /// Seconds of the round, pauses left out.
    pub(crate) fn own_s(&self) -> f64 {
        self.before_s + self.running_since_s.map_or(0.0, |since| self.now_s - since)
    }

    /// A string was brought where it belongs.
    pub(crate) fn done(&mut self) {
        let own = self.own_s();
        self.taken_s.push(own - self.last_done_s);
        self.last_done_s = own;
    }

    /// Minutes for so many strings: the median of what she took for each, times their number.
    pub(crate) fn minutes(&self, strings: usize) -> Option<f64> {
        if self.taken_s.len() < LEAST {
            return None;
        }
        Some(median(&self.taken_s)? * strings as f64 / 60.0)
    }
}
