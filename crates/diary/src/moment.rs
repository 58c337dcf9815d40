//! A moment that can be reckoned with: the records' own text says when it was, this says how long ago.

use std::fmt;

use crate::At;

const NS: i128 = 1_000_000_000;
const DAY_S: i128 = 86_400;

/// Nanoseconds since 1970 began in UTC, leap seconds left out, as clocks of computers count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Moment(i128);

impl Moment {
    /// The moment of a record's time. A leap second is taken for the one after it.
    ///
    /// ```
    /// use diary::Moment;
    /// // POSIX.1-2017, section 4.16: seconds since the Epoch; 1,000,000,000 of them were over at this moment
    /// let moment = Moment::of(&"2001-09-09T01:46:40Z".parse()?);
    /// assert_eq!(moment.unix_s(), 1e9);
    /// assert_eq!(moment.to_string(), "2001-09-09T01:46:40Z");
    /// # Ok::<(), diary::AtError>(())
    /// ```
    pub fn of(at: &At) -> Moment {
        let ([year, month, day, hour, minute, second], ns) = at.fields();
        let days = days_since_1970(i128::from(year), i128::from(month), i128::from(day));
        let of_day = 3600 * i128::from(hour) + 60 * i128::from(minute) + i128::from(second);
        Moment((days * DAY_S + of_day) * NS + i128::from(ns))
    }

    /// So many seconds after 1970 began, as a system's clock gives them; 1970 itself where that is no number.
    pub fn of_unix_s(seconds: f64) -> Moment {
        Moment(0).plus_s(seconds)
    }

    /// As a record has it, to the second; of years that a record cannot write, the beginning of 1970.
    pub fn at(self) -> At {
        self.to_string().parse().unwrap_or_else(|_| At::first())
    }

    /// The same to a thousandth of a second.
    ///
    /// ```
    /// assert_eq!(diary::Moment::of_unix_s(1e9 + 0.25).at_ms().as_str(), "2001-09-09T01:46:40.250Z");
    /// ```
    pub fn at_ms(self) -> At {
        let ms = self.0.rem_euclid(NS) / 1_000_000;
        let text = format!("{}.{ms:03}Z", self.to_string().trim_end_matches('Z'));
        text.parse().unwrap_or_else(|_| At::first())
    }

    /// Seconds since 1970 began.
    pub fn unix_s(self) -> f64 {
        self.0 as f64 / NS as f64
    }

    /// So many seconds later; the same moment where that is no number.
    #[must_use]
    pub fn plus_s(self, seconds: f64) -> Moment {
        Moment(self.0.saturating_add((seconds * NS as f64) as i128))
    }

    /// Seconds from an earlier moment to this one.
    pub fn since_s(self, earlier: Moment) -> f64 {
        self.0.saturating_sub(earlier.0) as f64 / NS as f64
    }
}

/// As records write it, to the second: `2026-11-26T18:40:00Z`.
impl fmt::Display for Moment {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let seconds = self.0.div_euclid(NS);
        let (year, month, day) = day_of(seconds.div_euclid(DAY_S));
        let of_day = seconds.rem_euclid(DAY_S);
        let (hour, minute, second) = (of_day / 3600, of_day / 60 % 60, of_day % 60);
        write!(
            f,
            "{year:04}-{month:02}-{day:02}T{hour:02}:{minute:02}:{second:02}Z"
        )
    }
}

/// Days of the Gregorian calendar, carried back before it began: years counted from March, so that a leap day ends them.
/// Of 400 years 146,097 days; from 1 March of year 0 to 1 January 1970 719,468.
fn days_since_1970(year: i128, month: i128, day: i128) -> i128 {
    let from_march = if month <= 2 { year - 1 } else { year };
    let months = (month + 9).rem_euclid(12);
    let days_of_months = (153 * months + 2) / 5 + day - 1;
    let leap_days =
        from_march.div_euclid(4) - from_march.div_euclid(100) + from_march.div_euclid(400);
    365 * from_march + leap_days + days_of_months - 719_468
}

/// The way back: year, month, day.
fn day_of(days: i128) -> (i128, i128, i128) {
    let days = days + 719_468;
    let (era, of_era) = (days.div_euclid(146_097), days.rem_euclid(146_097));
    let year = (of_era - of_era / 1_460 + of_era / 36_524 - of_era / 146_096) / 365;
    let of_year = of_era - (365 * year + year / 4 - year / 100);
    let months = (5 * of_year + 2) / 153;
    let day = of_year - (153 * months + 2) / 5 + 1;
    let month = if months < 10 { months + 3 } else { months - 9 };
    let year = 400 * era + year + i128::from(month <= 2);
    (year, month, day)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(text: &str, unix_s: f64) {
        let moment = Moment::of(&text.parse().unwrap());
        assert_eq!(moment.unix_s(), unix_s, "{text}");
        assert_eq!(moment.to_string(), text);
        assert_eq!(Moment::of_unix_s(unix_s).at().as_str(), text);
    }

    // seconds by `date -u -d … +%s` of GNU coreutils 9.1
    #[test]
    fn seconds_are_counted_as_clocks_count_them() {
        check("1970-01-01T00:00:00Z", 0.0);
        check("1969-12-31T23:59:59Z", -1.0);
        check("2000-02-29T12:00:00Z", 951_825_600.0);
        check("2026-11-26T18:40:00Z", 1_795_718_400.0);
        check("1900-03-01T00:00:00Z", -2_203_891_200.0);
    }

    #[test]
    fn every_day_of_eight_hundred_years_comes_back() {
        let first = days_since_1970(1600, 1, 1);
        for days in first..first + 2 * 146_097 {
            let (year, month, day) = day_of(days);
            assert_eq!(days_since_1970(year, month, day), days);
            assert!((1..=12).contains(&month) && (1..=31).contains(&day));
        }
    }

    #[test]
    fn parts_of_a_second_count() {
        let early = Moment::of(&"2026-11-26T18:40:00.25Z".parse().unwrap());
        let late = Moment::of(&"2026-11-26T18:40:01.000000001Z".parse().unwrap());
        assert!((late.since_s(early) - 0.750_000_001).abs() < 1e-12);
        assert_eq!(early.plus_s(f64::NAN), early);
        assert_eq!(early.plus_s(0.750_000_001), late);
    }
}
