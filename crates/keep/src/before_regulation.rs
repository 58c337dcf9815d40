//! What to restring before a regulation, and by when: a mechanism set to worn strings is wrong on new ones.

use diary::{HarpKnown, Moment};
use harp::{Harp, StringName};

use crate::{DAY_S, Intervals, State, due};

/// Days before a regulation by which strings should be on, and by which they must (one technician's advice, two weeks and
/// one week).
const WANTED: f64 = 14.0;
const LEAST: f64 = 7.0;

/// How much time is left.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Time {
    /// Two weeks or more.
    Enough,
    /// Between one week and two.
    Late,
    /// Less than a week: strings that are put on now are not settled when the technician comes.
    TooLate,
}

/// What to restring before a regulation.
#[derive(Clone, Debug, PartialEq)]
pub struct BeforeRegulation {
    /// By when strings should be on.
    pub wanted: Moment,
    /// By when at the latest.
    pub latest: Moment,
    /// How it stands now.
    pub time: Time,
    /// Strings that are missing, or due on the day itself.
    pub strings: Vec<StringName>,
    /// Strings that may be due on that day, by their looks and their sound.
    pub maybe: Vec<StringName>,
}

/// What to restring before a regulation on a day.
pub fn before_regulation(
    harp: &Harp,
    known: &HarpKnown,
    now: Moment,
    day: Moment,
    intervals: &Intervals,
) -> BeforeRegulation {
    let (wanted, latest) = (day.plus_s(-WANTED * DAY_S), day.plus_s(-LEAST * DAY_S));
    let time = match now {
        now if now <= wanted => Time::Enough,
        now if now <= latest => Time::Late,
        _ => Time::TooLate,
    };
    let by_then = due(harp, known, day, intervals);
    let of = |states: &[State]| {
        let those = by_then.iter().filter(|one| states.contains(&one.state));
        those.map(|one| one.string).collect()
    };
    BeforeRegulation {
        wanted,
        latest,
        time,
        strings: of(&[State::Missing, State::Due]),
        maybe: of(&[State::MayBe]),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Use;

    // 14 days wanted, 7 the least: a technician's advice to owners before a regulation
    #[test]
    fn two_weeks_are_enough_and_less_than_one_is_too_late() {
        let harp = Harp::named("lever22").unwrap();
        let known = HarpKnown {
            harp: String::new(),
            toml: None,
            strings: std::collections::BTreeMap::new(),
            pedals: Vec::new(),
            checks: Vec::new(),
            visits: Vec::new(),
            a4_hz: None,
            rounds: 0,
        };
        let day = Moment::of(&"2026-12-20T09:00:00Z".parse().unwrap());
        let time = |days: f64| {
            let now = day.plus_s(-days * DAY_S);
            let intervals = Intervals::of(Use::Student);
            before_regulation(&harp, &known, now, day, &intervals).time
        };
        let times = [15.0, 14.0, 13.0, 7.0, 6.0].map(time);
        use Time::{Enough, Late, TooLate};
        assert_eq!(times, [Enough, Enough, Late, Late, TooLate]);
    }
}
