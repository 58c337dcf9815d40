//! When a record was written: a second of the day in UTC, as RFC 3339 writes it.

use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

/// A moment in UTC, kept as it was given: `2026-11-26T18:40:00Z`, with or without parts of a second.
///
/// Moments are ordered by time; two that differ only in how many noughts end them are the same moment and still two
/// texts.
///
/// ```
/// use diary::At;
/// let early: At = "2026-11-26T18:40:00Z".parse()?;
/// let late: At = "2026-11-26T18:40:00.250Z".parse()?;
/// assert!(early < late);
/// assert!("2026-11-26 18:40".parse::<At>().is_err());
/// # Ok::<(), diary::AtError>(())
/// ```
#[derive(Clone, Debug)]
pub struct At {
    text: String,
}

/// A text that is no moment in UTC.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AtError {
    /// Not of the form.
    #[error("'{text}' is no time: write it in UTC as 2026-11-26T18:40:00Z")]
    Form {
        /// What was given, at most 40 characters.
        text: String,
    },
    /// A time of another zone.
    #[error("'{text}' is the time of another zone: write it in UTC, ending in Z")]
    Zone {
        /// What was given, at most 40 characters.
        text: String,
    },
    /// A day or an hour that does not exist.
    #[error("'{text}' does not exist: there is no such day or hour")]
    NoSuch {
        /// What was given, at most 40 characters.
        text: String,
    },
}

impl At {
    /// The text as it was given.
    pub fn as_str(&self) -> &str {
        &self.text
    }

    /// The beginning of 1970.
    pub(crate) fn first() -> At {
        At {
            text: "1970-01-01T00:00:00Z".to_owned(),
        }
    }

    /// Year, month, day, hour, minute, second; and nanoseconds.
    pub(crate) fn fields(&self) -> ([u32; 6], u32) {
        let (seconds, parts) = self.key();
        let digits = parts.bytes().chain(std::iter::repeat(b'0')).take(9);
        let ns = digits.fold(0, |ns, digit| 10 * ns + u32::from(digit - b'0'));
        (fields(seconds).unwrap_or([1970, 1, 1, 0, 0, 0]), ns)
    }

    /// Seconds as 19 characters, and the digits behind the point without closing noughts.
    fn key(&self) -> (&str, &str) {
        let body = self.text.trim_end_matches('Z');
        let (seconds, parts) = body.split_once('.').unwrap_or((body, ""));
        (seconds, parts.trim_end_matches('0'))
    }
}

impl FromStr for At {
    type Err = AtError;

    /// RFC 3339, section 5.6, of which only UTC is taken, written with a capital T and Z; section 5.7 for the days of a
    /// month and the leap second.
    fn from_str(text: &str) -> Result<Self, AtError> {
        let shown = || text.chars().take(40).collect::<String>();
        let form = || AtError::Form { text: shown() };
        let Some(body) = text.strip_suffix('Z') else {
            return Err(match has_offset(text) {
                true => AtError::Zone { text: shown() },
                false => form(),
            });
        };
        let (seconds, parts) = match body.split_once('.') {
            Some((seconds, parts)) => (seconds, Some(parts)),
            None => (body, None),
        };
        let digits = |part: &str| !part.is_empty() && part.bytes().all(|b| b.is_ascii_digit());
        if parts.is_some_and(|parts| !digits(parts) || parts.len() > 9) {
            return Err(form());
        }
        let fields = fields(seconds).ok_or_else(form)?;
        if exists(fields) {
            Ok(Self {
                text: text.to_owned(),
            })
        } else {
            Err(AtError::NoSuch { text: shown() })
        }
    }
}

impl fmt::Display for At {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.text)
    }
}

impl Ord for At {
    fn cmp(&self, other: &Self) -> Ordering {
        self.key().cmp(&other.key())
    }
}

impl PartialOrd for At {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for At {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for At {}

/// Whether a text ends as a time of a zone does: `-08:00`.
fn has_offset(text: &str) -> bool {
    let Some(start) = text.len().checked_sub(6) else {
        return false;
    };
    match text.as_bytes().get(start..) {
        Some([b'+' | b'-', a, b, b':', c, d]) => [a, b, c, d].iter().all(|b| b.is_ascii_digit()),
        _ => false,
    }
}

/// Year, month, day, hour, minute, second of `2026-11-26T18:40:00`.
fn fields(text: &str) -> Option<[u32; 6]> {
    const SIGNS: [(usize, u8); 5] = [(4, b'-'), (7, b'-'), (10, b'T'), (13, b':'), (16, b':')];
    const PLACES: [(usize, usize); 6] = [(0, 4), (5, 7), (8, 10), (11, 13), (14, 16), (17, 19)];
    let bytes = text.as_bytes();
    let signs = SIGNS.iter().all(|&(at, sign)| bytes.get(at) == Some(&sign));
    if bytes.len() != 19 || !signs {
        return None;
    }
    let mut fields = [0; 6];
    for (field, (from, to)) in fields.iter_mut().zip(PLACES) {
        for byte in bytes.get(from..to)? {
            let digit = byte.is_ascii_digit().then(|| u32::from(byte - b'0'))?;
            *field = 10 * *field + digit;
        }
    }
    Some(fields)
}

/// A leap second stands only at the end of the last hour of a day in UTC.
fn exists([year, month, day, hour, minute, second]: [u32; 6]) -> bool {
    let leap_second = (hour, minute, second) == (23, 59, 60);
    (1..=days(year, month)).contains(&day)
        && hour <= 23
        && minute <= 59
        && (second <= 59 || leap_second)
}

/// RFC 3339, section 5.7 and appendix C; nought for a month that does not exist.
fn days(year: u32, month: u32) -> u32 {
    let leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        1 | 3 | 5 | 7 | 8 | 10 | 12 => 31,
        4 | 6 | 9 | 11 => 30,
        2 => 28 + u32::from(leap),
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, taken: bool) {
        assert_eq!(text.parse::<At>().is_ok(), taken, "{text}");
    }

    // RFC 3339, section 5.8: its five examples; three of them are of other zones than UTC
    #[test]
    fn the_examples_of_rfc_3339_are_taken_where_they_are_utc() {
        check("1985-04-12T23:20:50.52Z", true);
        check("1990-12-31T23:59:60Z", true);
        for zone in [
            "1996-12-19T16:39:57-08:00",
            "1990-12-31T15:59:60-08:00",
            "1937-01-01T12:00:27.87+00:20",
        ] {
            assert!(matches!(zone.parse::<At>(), Err(AtError::Zone { .. })));
        }
    }

    // RFC 3339, section 5.7 (table of days) and appendix C (leap years: 1900 is none, 2000 is one)
    #[test]
    fn days_that_do_not_exist_are_refused() {
        check("2024-02-29T00:00:00Z", true);
        check("2023-02-29T00:00:00Z", false);
        check("2000-02-29T00:00:00Z", true);
        check("1900-02-29T00:00:00Z", false);
        check("2026-04-31T00:00:00Z", false);
        check("2026-00-10T00:00:00Z", false);
        check("2026-13-10T00:00:00Z", false);
        check("2026-11-26T24:00:00Z", false);
        check("2026-11-26T18:60:00Z", false);
        check("2026-11-26T18:40:60Z", false);
    }

    #[test]
    fn other_forms_are_refused() {
        for text in [
            "",
            "Z",
            "2026-11-26",
            "2026-11-26T18:40Z",
            "2026-11-26 18:40:00Z",
            "2026-11-26t18:40:00z",
            "2026-11-26T18:40:00",
            "2026-11-26T18:40:00.Z",
            "2026-11-26T18:40:00.1234567890Z",
            "2026-11-26T18:40:00ZZ",
            "+026-11-26T18:40:00Z",
            "２026-11-26T18:40:00Z",
            "2026-11-2éT18:40:00Z",
        ] {
            check(text, false);
        }
    }

    #[test]
    fn moments_are_ordered_by_time() {
        let at = |text: &str| text.parse::<At>().unwrap();
        assert!(at("2026-11-26T18:40:00Z") < at("2026-11-26T18:40:00.001Z"));
        assert!(at("2026-11-26T18:40:00.9Z") > at("2026-11-26T18:40:00.25Z"));
        assert_eq!(at("2026-11-26T18:40:00.50Z"), at("2026-11-26T18:40:00.5Z"));
        assert!(at("1990-12-31T23:59:60Z") < at("1991-01-01T00:00:00Z"));
    }
}
