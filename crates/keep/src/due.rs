//! Which strings are due, and why.

use diary::{HarpKnown, Moment, StringKnown};
use harp::{Harp, StringName};

use crate::{Age, Breaks, Interval, Intervals, Register, YEAR, age, breaks};

/// Whether a string is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Not yet.
    NotYet,
    /// Its age is not known.
    NotKnown,
    /// It is between the two ages of its interval: by its looks and its sound.
    MayBe,
    /// It is as old as strings there become.
    Due,
    /// There is no string.
    Missing,
}

/// A string and whether it is due.
#[derive(Clone, Debug, PartialEq)]
pub struct DueString {
    /// The string.
    pub string: StringName,
    /// Its age.
    pub age: Age,
    /// Where it belongs.
    pub register: Register,
    /// By which interval it was judged.
    pub interval: Interval,
    /// Whether it is due.
    pub state: State,
    /// The breaks in its place.
    pub breaks: Breaks,
}

/// Every string of a harp, from the bass, and whether it is due at a moment.
pub fn due(harp: &Harp, known: &HarpKnown, now: Moment, intervals: &Intervals) -> Vec<DueString> {
    let unknown = StringKnown::default();
    let strings = harp.strings().iter().map(|string| {
        let own = known.strings.get(&string.name).unwrap_or(&unknown);
        let register = Register::of(string);
        let interval = intervals.of_register(register);
        let age = age(own, now);
        DueString {
            string: string.name,
            age,
            register,
            interval,
            state: state(age, interval),
            breaks: breaks(own, now),
        }
    });
    strings.collect()
}

fn state(age: Age, interval: Interval) -> State {
    let years = age.days().map(|days| days / YEAR);
    match (age, years) {
        (Age::NoString, _) => State::Missing,
        (_, Some(years)) if years >= interval.to_years => State::Due,
        (_, Some(years)) if years >= interval.from_years => State::MayBe,
        // younger than its interval only where it is known that it was new
        (Age::Days(_), _) => State::NotYet,
        _ => State::NotKnown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Use;

    #[track_caller]
    fn check(age: Age, register: Register, expected: State) {
        let intervals = Intervals::of(Use::Professional);
        assert_eq!(state(age, intervals.of_register(register)), expected);
    }

    // the intervals are those of several guides for harpists: one year above, two to three for wires
    #[test]
    fn a_string_is_due_by_its_register() {
        check(Age::Days(200.0), Register::Top, State::NotYet);
        check(Age::Days(370.0), Register::Top, State::Due);
        check(Age::Days(370.0), Register::Wire, State::NotYet);
        check(Age::Days(900.0), Register::Wire, State::MayBe);
        check(Age::AtLeast(1200.0), Register::Wire, State::Due);
        check(Age::AtLeast(200.0), Register::Top, State::NotKnown);
        check(Age::Unknown, Register::Middle, State::NotKnown);
        check(Age::NoString, Register::Middle, State::Missing);
    }
}
