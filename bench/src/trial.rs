//! One pluck heard once, held against its truth.

use harp::StringName;
use pluck::{Set, Truth};

use crate::listener::{Answer, Listener, Measure, Outcome, Task};

/// A value further off than this, in cents, is wrong.
pub const WRONG_CENTS: f64 = 50.0;

/// What the trials of one line of a table share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Cell {
    /// The set of plucks.
    pub set: Set,
    /// Milliseconds heard after the onset.
    pub span_ms: u32,
    /// Whether the string was told beforehand.
    pub guided: bool,
}

/// A pluck of a set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The string, 0 = C1 … 46 = G7.
    pub index: usize,
    /// The take.
    pub take: u64,
}

/// How far a measured value lay off, and how far it said it might.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Miss {
    /// Measured against truth in cents.
    pub error_cents: f64,
    /// Half of the interval that was given.
    pub u95_cents: f64,
}

impl Miss {
    /// Whether the interval holds the truth.
    pub fn holds(&self) -> bool {
        self.error_cents.abs() <= self.u95_cents
    }
}

/// An answer that names a string, judged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Judged {
    /// Whether it named the string that sounded.
    pub right: bool,
    /// The sounding pitch.
    pub heard: Miss,
    /// The first partial.
    pub first_partial: Miss,
    /// As in [`Answer::listened_s`].
    pub listened_s: f64,
    /// As in [`Answer::given_s`].
    pub given_s: f64,
    /// Whether it was the last word.
    pub last: bool,
}

impl Judged {
    /// One of the two measures.
    pub fn of(&self, measure: Measure) -> Miss {
        match measure {
            Measure::Heard => self.heard,
            Measure::FirstPartial => self.first_partial,
        }
    }

    fn far_off(&self) -> bool {
        let far = |error: f64| error.is_nan() || error.abs() > WRONG_CENTS;
        Measure::ALL
            .into_iter()
            .any(|m| far(self.of(m).error_cents))
    }
}

/// The first answer to a pluck; it may name no string.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum First {
    /// No string was named, or there was no answer.
    Nameless,
    /// A string was named.
    Named(Judged),
}

/// One pluck heard once.
#[derive(Clone, Debug, PartialEq)]
pub struct Trial {
    /// Where it belongs.
    pub cell: Cell,
    /// Which pluck.
    pub place: Place,
    /// Scientific octave of the string.
    pub octave: i8,
    /// The last word, if it names a string: otherwise the pluck counts as refused.
    pub last: Option<Judged>,
    /// The first word.
    pub first: First,
    /// Why it was refused, in the listener's words.
    pub refused: Option<String>,
    /// Whether a string was named for sound before the pluck.
    pub named_before: bool,
    /// Whether another string was named for a pluck that never was.
    pub another_after: bool,
    /// The bound of the first partial (one standard deviation, cents), where it holds.
    pub bound_cents: Option<f64>,
}

impl Trial {
    /// Another string named, or a value more than [`WRONG_CENTS`] from the truth; guided, only the latter.
    pub fn is_wrong(&self) -> bool {
        let named = !self.cell.guided && self.last.is_some_and(|judged| !judged.right);
        let after = !self.cell.guided && self.another_after;
        named || after || self.last.is_some_and(|judged| judged.far_off())
    }

    /// The last word, if it names the right string.
    pub fn accepted(&self) -> Option<Judged> {
        self.last.filter(|judged| judged.right)
    }
}

/// Has a listener hear a pluck and judges what it says. `pluck` holds at least `cell.span_ms` after its onset.
pub fn hold_trial(
    listener: &dyn Listener,
    pluck: &pluck::Pluck,
    string: StringName,
    cell: Cell,
    place: Place,
) -> Trial {
    let seconds = f64::from(cell.span_ms) / 1000.0;
    let end = pluck.onset + (seconds * f64::from(pluck.rate)).round() as usize;
    let outcome = listener.listen(&Task {
        samples: &pluck.samples[..end.min(pluck.samples.len())],
        onset: pluck.onset,
        rate_hz: pluck.rate,
        seconds,
        guided: cell.guided.then_some(string),
    });
    judge(&outcome, &pluck.truth, string, cell, place)
}

fn judge(outcome: &Outcome, truth: &Truth, string: StringName, cell: Cell, place: Place) -> Trial {
    let judged = |answer: &Answer| judge_answer(answer, truth, string, cell.guided);
    let clean = matches!(cell.set, Set::Clean40 | Set::Clean20 | Set::Clean10);
    let last = outcome.last.as_ref().and_then(judged);
    let refused = match (&outcome.refused, &outcome.last, last) {
        (_, _, Some(_)) => None,
        (Some(reason), _, _) => Some(reason.clone()),
        (None, Some(_), None) => Some("reading without a name".to_owned()),
        (None, None, None) => Some("nothing heard".to_owned()),
    };
    Trial {
        cell,
        place,
        octave: string.octave,
        last,
        first: outcome
            .first
            .as_ref()
            .and_then(judged)
            .map_or(First::Nameless, First::Named),
        refused,
        named_before: !outcome.before.is_empty(),
        another_after: outcome.after.iter().any(|named| *named != string),
        bound_cents: clean.then(|| truth.bound_cents(f64::from(cell.span_ms) / 1000.0)),
    }
}

fn judge_answer(
    answer: &Answer,
    truth: &Truth,
    string: StringName,
    guided: bool,
) -> Option<Judged> {
    let named = answer.string?;
    let miss = |measure: Measure, true_hz: f64| Miss {
        error_cents: pitch::cents(true_hz, answer.of(measure).hz),
        u95_cents: answer.of(measure).u95_cents,
    };
    Some(Judged {
        right: guided || named == string,
        heard: miss(Measure::Heard, truth.sounding_hz),
        first_partial: miss(Measure::FirstPartial, truth.f1_hz),
        listened_s: answer.listened_s,
        given_s: answer.given_s,
        last: answer.last,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::listener::Measured;

    /// Says what it was made to say, off the truth by known cents.
    struct Parrot {
        truth: Truth,
        says: Option<StringName>,
        heard_off: f64,
        first_partial_off: f64,
        after: Vec<StringName>,
    }

    impl Listener for Parrot {
        fn listen(&self, task: &Task<'_>) -> Outcome {
            let measured = |hz: f64, off: f64| Measured {
                hz: pitch::raise(hz, off),
                u95_cents: 2.0,
            };
            let answer = Answer {
                string: self.says,
                heard: measured(self.truth.sounding_hz, self.heard_off),
                first_partial: measured(self.truth.f1_hz, self.first_partial_off),
                listened_s: task.seconds,
                given_s: task.seconds,
                last: true,
            };
            Outcome {
                first: Some(answer),
                last: Some(answer),
                refused: None,
                before: Vec::new(),
                after: self.after.clone(),
            }
        }
    }

    fn check(says: Option<&str>, off: (f64, f64), guided: bool, after: &[&str]) -> Trial {
        let pluck = Set::Clean20.pluck(26, 0, 1); // A4
        let parrot = Parrot {
            truth: pluck.truth.clone(),
            says: says.map(|name| name.parse().unwrap()),
            heard_off: off.0,
            first_partial_off: off.1,
            after: after.iter().map(|name| name.parse().unwrap()).collect(),
        };
        let cell = Cell {
            set: Set::Clean20,
            span_ms: 500,
            guided,
        };
        let place = Place { index: 26, take: 0 };
        hold_trial(&parrot, &pluck, "A4".parse().unwrap(), cell, place)
    }

    #[test]
    fn errors_are_taken_each_against_its_own_truth() {
        let judged = check(Some("A4"), (-1.5, 3.0), false, &[])
            .accepted()
            .unwrap();
        assert!((judged.heard.error_cents + 1.5).abs() < 1e-9 && judged.heard.holds());
        let first_partial = judged.first_partial;
        assert!((first_partial.error_cents - 3.0).abs() < 1e-9 && !first_partial.holds());
    }

    #[test]
    fn another_name_is_wrong_unless_it_was_told() {
        let trial = check(Some("B4"), (0.0, 0.0), false, &[]);
        assert!(trial.is_wrong() && trial.accepted().is_none());
        assert!(!check(Some("B4"), (0.0, 0.0), true, &[]).is_wrong());
    }

    #[test]
    fn more_than_fifty_cents_in_either_value_is_wrong() {
        for (off, wrong) in [
            ((49.0, 0.0), false),
            ((51.0, 0.0), true),
            ((0.0, -51.0), true),
        ] {
            for guided in [false, true] {
                assert_eq!(
                    check(Some("A4"), off, guided, &[]).is_wrong(),
                    wrong,
                    "{off:?}"
                );
            }
        }
    }

    #[test]
    fn a_value_that_is_no_number_is_wrong() {
        assert!(check(Some("A4"), (f64::NAN, 0.0), false, &[]).is_wrong());
    }

    #[test]
    fn no_name_is_a_refusal_and_no_error() {
        let trial = check(None, (80.0, 80.0), false, &[]);
        assert!(!trial.is_wrong() && trial.last.is_none());
        assert_eq!(trial.refused.as_deref(), Some("reading without a name"));
        assert_eq!(trial.first, First::Nameless);
    }

    #[test]
    fn another_string_named_after_the_pluck_is_wrong() {
        assert!(check(Some("A4"), (0.0, 0.0), false, &["E4"]).is_wrong());
        assert!(!check(Some("A4"), (0.0, 0.0), false, &["A4"]).is_wrong());
    }

    #[test]
    fn the_bound_holds_for_clean_sets_only() {
        let bound = check(Some("A4"), (0.0, 0.0), false, &[])
            .bound_cents
            .unwrap();
        assert!(bound > 0.0 && bound < 0.1);
    }
}
