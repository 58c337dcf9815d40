//! Weeks by her own clock.

use diary::{Day, Moment};

const DAY_S: f64 = 86_400.0;

/// Monday of the week in which a moment lies, by a clock so many minutes ahead of UTC. Weeks begin on Monday (ISO 8601).
pub(super) fn monday(when: Moment, ahead_min: i32) -> Day {
    let local_s = when.unix_s() + 60.0 * f64::from(ahead_min);
    let day = (local_s / DAY_S).floor();
    // 1970 began on a Thursday
    let since_monday = (day + 3.0).rem_euclid(7.0);
    Day::of(&Moment::of_unix_s((day - since_monday) * DAY_S).at())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn week(at: &str, ahead_min: i32) -> String {
        monday(Moment::of(&at.parse().unwrap()), ahead_min).to_string()
    }

    // ISO 8601 calls 29 December 2008 the first day of the first week of 2009; 23 November 2026 is a Monday (`cal`)
    #[test]
    fn weeks_begin_on_monday_by_the_reader_s_clock() {
        assert_eq!(week("2009-01-01T12:00:00Z", 0), "2008-12-29");
        assert_eq!(week("2026-11-23T00:00:00Z", 0), "2026-11-23");
        assert_eq!(week("2026-11-22T23:59:59Z", 0), "2026-11-16");
        assert_eq!(week("2026-11-22T23:30:00Z", 60), "2026-11-23");
        assert_eq!(week("2026-11-23T04:30:00Z", -300), "2026-11-16");
        assert_eq!(week("1969-12-31T12:00:00Z", 0), "1969-12-29");
    }
}
