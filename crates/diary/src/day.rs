//! A day as she writes it: what was done may be written down later.

use std::fmt;
use std::str::FromStr;

use crate::At;

/// A day of the calendar, `2026-11-26`.
///
/// ```
/// use diary::Day;
/// let day: Day = "2026-02-28".parse()?;
/// assert_eq!(day.to_string(), "2026-02-28");
/// assert!("2026-02-30".parse::<Day>().is_err());
/// # Ok::<(), diary::DayError>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Day(String);

/// A text that is no day.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("'{text}' is no day: write it as 2026-11-26")]
pub struct DayError {
    /// What was given, at most 40 characters.
    text: String,
}

impl Day {
    /// The moment at which the day begins in UTC.
    pub fn begins(&self) -> Option<At> {
        format!("{}T00:00:00Z", self.0).parse().ok()
    }

    /// The day in UTC of a moment.
    pub fn of(at: &At) -> Day {
        Day(at.as_str().chars().take(10).collect())
    }
}

impl FromStr for Day {
    type Err = DayError;

    fn from_str(text: &str) -> Result<Self, DayError> {
        let day = Day(text.to_owned());
        if text.len() == 10 && day.begins().is_some() {
            return Ok(day);
        }
        Err(DayError {
            text: text.chars().take(40).collect(),
        })
    }
}

impl fmt::Display for Day {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_days_that_exist_are_days() {
        for text in ["", "2026-11-26Z", "2026-11-31", "26-11-2026", "2026-11-2é"] {
            assert!(text.parse::<Day>().is_err(), "{text}");
        }
        let at: At = "2024-02-29T23:59:59.5Z".parse().unwrap();
        assert_eq!(Day::of(&at), "2024-02-29".parse().unwrap());
    }
}
