//! A few minutes: which string next, and what is left out of tune when they are over.

use std::collections::BTreeMap;

use harp::StringName;

use crate::joint::Joint;
use crate::order::{InTune, Next, in_tune, in_turn};

/// What is known of the strings, what each is worth, and how far it may be off.
#[derive(Clone, Debug)]
pub struct Minutes {
    /// Where the strings stand; told what is plucked and tuned.
    pub joint: Joint,
    weights: BTreeMap<StringName, f64>,
    tolerances: BTreeMap<StringName, f64>,
    seconds_per_string: f64,
}

impl Minutes {
    /// `weights`: how much each string is played; none at all: all alike. `tolerance_cents`: how far a string may be off.
    /// `seconds_per_string`: above nought.
    pub fn new(
        joint: Joint,
        weights: BTreeMap<StringName, f64>,
        tolerance_cents: impl Fn(StringName) -> f64,
        seconds_per_string: f64,
    ) -> Minutes {
        let names = joint.names();
        let alike = || names.iter().map(|name| (*name, 1.0)).collect();
        Minutes {
            weights: if weights.values().any(|weight| *weight > 0.0) {
                weights
            } else {
                alike()
            },
            tolerances: names.iter().map(|s| (*s, tolerance_cents(*s))).collect(),
            joint,
            seconds_per_string,
        }
    }

    /// How much each string is played.
    pub fn weights(&self) -> &BTreeMap<StringName, f64> {
        &self.weights
    }

    /// How likely a string is to be out; nought for one that is not here.
    pub fn p_out(&self, string: StringName) -> f64 {
        let tolerance = self.tolerances.get(&string).copied();
        self.joint.p_out(string, tolerance.unwrap_or_default())
    }

    /// The strings in the order in which plucking them saves most, but those that are done; who is not played is left out.
    pub fn in_turn(&self, done: &[StringName]) -> Vec<Next> {
        in_turn(&self.joint, &self.weights, &self.tolerances, done)
    }

    /// Whether the harp may be called in tune, as sure as asked, 0 to 1, and after how many more strings.
    pub fn in_tune(&self, done: &[StringName], asked: f64) -> InTune {
        in_tune(&self.joint, &self.weights, &self.tolerances, done, asked)
    }

    /// Strings that there is time for.
    pub fn strings_in(&self, seconds: f64) -> usize {
        (seconds.max(0.0) / self.seconds_per_string.max(0.1)) as usize
    }

    /// The share of all notes that is expected out of tune when so many more strings of the order were tuned, 0 to 1.
    pub fn left_out(&self, done: &[StringName], strings: usize) -> f64 {
        let names = self.joint.names().iter();
        let each = names.map(|s| self.p_out(*s) * self.weights.get(s).copied().unwrap_or(0.0));
        let saved = self.in_turn(done).into_iter().take(strings);
        let saved: f64 = saved.map(|next| next.gain).sum();
        let all: f64 = self.weights.values().sum();
        ((each.sum::<f64>() - saved) / all.max(f64::MIN_POSITIVE)).clamp(0.0, 1.0)
    }

    /// A string plays no more tonight: it is broken.
    pub fn without(&mut self, string: StringName) {
        self.weights.remove(&string);
    }
}

/// How much each of these strings is played, from strings and their notes; none at all where nobody says so, which is all
/// alike to [`Minutes`]. Notes that are not above nought say nothing. Where `all_named` is false any string may be played, and
/// counts one note at least.
pub fn weights_of(
    names: &[StringName],
    notes: impl IntoIterator<Item = (StringName, f64)>,
    all_named: bool,
) -> BTreeMap<StringName, f64> {
    let mut weights: BTreeMap<StringName, f64> = BTreeMap::new();
    for (string, notes) in notes {
        if notes > 0.0 && notes.is_finite() {
            *weights.entry(string).or_default() += notes;
        }
    }
    if !weights.is_empty() && !all_named {
        for name in names {
            let own = weights.entry(*name).or_default();
            *own = own.max(1.0);
        }
    }
    weights
}

#[cfg(test)]
mod tests {
    use super::*;

    fn name(text: &str) -> StringName {
        text.parse().unwrap()
    }

    /// Strings with what is expected of each, cents, its scale, and its notes; three cents of tolerance.
    fn minutes(strings: &[(&str, f64, f64, f64)]) -> Minutes {
        let names: Vec<StringName> = strings.iter().map(|s| name(s.0)).collect();
        let count = names.len();
        let mut covariance = vec![0.0; count * count];
        for (at, string) in strings.iter().enumerate() {
            covariance[at * (count + 1)] = string.2 * string.2;
        }
        let mean = strings.iter().map(|s| s.1).collect();
        let weights = names.iter().copied().zip(strings.iter().map(|s| s.3));
        let joint = Joint::of_parts(names.clone(), mean, covariance).unwrap();
        Minutes::new(joint, weights.collect(), |_| 3.0, 10.0)
    }

    fn order(minutes: &Minutes, done: &[StringName]) -> Vec<String> {
        let order = minutes.in_turn(done);
        order.iter().map(|next| next.string.to_string()).collect()
    }

    // by hand: a string 30 cents off, its scale a tenth, is out; one that stands and is as sure, is not
    #[test]
    fn what_is_left_out_is_what_nobody_had_time_for() {
        let mut minutes = minutes(&[
            ("C4", -30.0, 0.1, 6.0),
            ("D4", 30.0, 0.1, 3.0),
            ("E4", 0.0, 0.1, 1.0),
        ]);
        assert_eq!(order(&minutes, &[]), ["C4", "D4", "E4"]);
        let left = |minutes: &Minutes, done: &[StringName], seconds| {
            let strings = minutes.strings_in(seconds);
            (100.0 * minutes.left_out(done, strings)).round()
        };
        assert_eq!(left(&minutes, &[], 9.9), 90.0);
        assert_eq!(left(&minutes, &[], 19.0), 30.0);
        assert_eq!(left(&minutes, &[], 25.0), 0.0);
        assert_eq!(left(&minutes, &[], -5.0), 90.0);
        minutes.joint.tuned(name("D4"), 0.2, 0.2);
        assert_eq!(order(&minutes, &[name("D4")]), ["C4", "E4"]);
        assert_eq!(left(&minutes, &[name("D4")], 0.0), 60.0);
        minutes.without(name("C4"));
        assert_eq!(left(&minutes, &[name("D4")], 0.0), 0.0);
        assert!(minutes.in_tune(&[name("D4")], 0.9).after_plucks == Some(0));
    }

    #[test]
    fn notes_of_several_pieces_add_up_and_a_string_nobody_named_may_still_be_played() {
        let names = ["C4", "D4", "E4"].map(name);
        let notes = [
            ("C4", 2.0),
            ("D4", 0.5),
            ("C4", 3.0),
            ("E4", f64::NAN),
            ("E4", -1.0),
        ];
        let notes = || notes.iter().map(|(string, notes)| (name(string), *notes));
        let of = |all| {
            weights_of(&names, notes(), all)
                .into_values()
                .collect::<Vec<_>>()
        };
        assert_eq!(of(true), [5.0, 0.5]);
        assert_eq!(of(false), [5.0, 1.0, 1.0]);
        assert!(weights_of(&names, [], false).is_empty());
    }

    #[test]
    fn without_a_programme_all_strings_count_alike_and_with_one_those_that_rest_are_left_out() {
        let rests = minutes(&[("C4", 9.0, 1.0, 0.0), ("D4", 0.0, 1.0, 2.0)]);
        assert_eq!(order(&rests, &[]), ["D4"]);
        let alike = minutes(&[("C4", 9.0, 1.0, 0.0), ("D4", 0.0, 1.0, 0.0)]);
        assert_eq!(order(&alike, &[]), ["C4", "D4"]);
    }
}
