//! How old a string is, as far as anybody knows.

use diary::{Moment, Stands, StringKnown};

use crate::DAY_S;

/// A string's age.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Age {
    /// It was put on new so many days ago.
    Days(f64),
    /// When it was new was never written; it has been there for so many days at least.
    AtLeast(f64),
    /// Nothing is known of it.
    Unknown,
    /// There is no string.
    NoString,
}

impl Age {
    /// The days that are sure, if any.
    pub fn days(self) -> Option<f64> {
        match self {
            Age::Days(days) | Age::AtLeast(days) => Some(days),
            Age::Unknown | Age::NoString => None,
        }
    }
}

/// The age of a string at a moment.
pub fn age(string: &StringKnown, now: Moment) -> Age {
    if string.stands != Stands::On {
        return Age::NoString;
    }
    let days = |since: Moment| (now.since_s(since) / DAY_S).max(0.0);
    match (&string.fitted, string.history.first()) {
        (Some(fitted), _) if fitted.used => Age::AtLeast(days(fitted.when)),
        (Some(fitted), _) => Age::Days(days(fitted.when)),
        (None, Some(first)) => Age::AtLeast(days(first.when)),
        (None, None) => Age::Unknown,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use diary::FittedKnown;

    #[test]
    fn a_used_string_is_at_least_as_old_as_its_fitting() {
        let when = Moment::of(&"2026-11-01T00:00:00Z".parse().unwrap());
        let fitted = |used| StringKnown {
            fitted: Some(FittedKnown {
                when,
                used,
                material: None,
                gauge_mm: None,
                by: String::new(),
            }),
            ..StringKnown::default()
        };
        let now = when.plus_s(10.0 * DAY_S);
        assert_eq!(age(&fitted(false), now), Age::Days(10.0));
        assert_eq!(age(&fitted(true), now), Age::AtLeast(10.0));
        assert_eq!(age(&StringKnown::default(), now), Age::Unknown);
        let broken = StringKnown {
            stands: Stands::Broken,
            ..fitted(false)
        };
        assert_eq!(age(&broken, now), Age::NoString);
    }
}
