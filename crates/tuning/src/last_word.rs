//! The last word on a pluck, held against what was said of it early.

use crate::measure::WIDEST;
use crate::{Reading, Reason, Refused};

/// Cents, beside both intervals, by which the last word may differ from an early one: a string glides.
const CONTRADICTION: f64 = 5.0;

/// Where the last word on a pluck is not what was said of it early, beyond what both left open, one of the two is about
/// something else that sounds: another name is then none, another pitch as unsure as they are apart, with no direction.
pub(crate) fn held_against(last: Reading, early: &Reading) -> Result<Reading, Refused> {
    let apart = pitch::cents(early.heard_hz, last.heard_hz).abs();
    if apart <= CONTRADICTION + last.u95_cents + early.u95_cents {
        return Ok(last);
    }
    let u95_cents = apart + early.u95_cents;
    if last.string != early.string || u95_cents > WIDEST {
        return Err(Refused {
            at_s: last.at_s,
            string: last.string.filter(|s| early.string == Some(*s)),
            reason: Reason::NotSure,
            detail: format!(
                "{:.1} Hz at first, then {:.1} Hz",
                early.heard_hz, last.heard_hz
            ),
        });
    }
    let mut candidates = last.candidates;
    for one in &early.candidates {
        if !candidates.contains(one) {
            candidates.push(*one);
        }
    }
    Ok(Reading {
        candidates,
        direction: None,
        u95_cents,
        f1_u95_cents: last.f1_u95_cents.max(u95_cents),
        ..last
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Direction;
    use pitch::raise;

    fn reading(string: &str, off: f64, u95: f64) -> Reading {
        let string: harp::StringName = string.parse().unwrap();
        let target_hz = 440.0;
        Reading {
            last: true,
            at_s: 1.5,
            string: Some(string),
            candidates: vec![string],
            position: None,
            target_hz,
            heard_hz: raise(target_hz, off),
            off_cents: off,
            u95_cents: u95,
            shows_as: String::new(),
            shows_off_cents: 0.0,
            f1_hz: raise(target_hz, off),
            f1_u95_cents: u95,
            f0_hz: raise(target_hz, off),
            b: 1e-4,
            glide_cents: 0.0,
            partials: Vec::new(),
            listened_s: 0.6,
            string_certainty: 1.0,
            direction: Some(Direction::Up),
            stiffness_cents: 0.0,
            t60_s: None,
            level_dbfs: None,
        }
    }

    fn check(early: Reading, last: Reading) -> Result<Reading, Reason> {
        held_against(last, &early).map_err(|refused| refused.reason)
    }

    #[test]
    fn what_both_left_open_and_a_glide_contradict_nothing() {
        for off in [-9.0, -12.9, -17.9] {
            let last = reading("A4", off, 1.0);
            assert_eq!(check(reading("A4", -10.0, 2.0), last.clone()), Ok(last));
        }
    }

    #[test]
    fn another_pitch_gives_no_direction_and_an_interval_that_holds_both() {
        let last = check(reading("A4", -10.0, 2.0), reading("A4", 1.5, 2.5)).unwrap();
        assert_eq!(last.direction, None);
        assert!((last.u95_cents - 13.5).abs() < 1e-9 && last.f1_u95_cents == last.u95_cents);
    }

    #[test]
    fn both_words_candidates_stay_the_last_ones_first() {
        let mut early = reading("A4", -10.0, 2.0);
        early.candidates.push("B4".parse().unwrap());
        let last = check(early, reading("A4", 1.5, 2.5)).unwrap();
        let names: Vec<String> = last.candidates.iter().map(|c| c.to_string()).collect();
        assert_eq!(names, ["A4", "B4"]);
    }

    #[test]
    fn another_name_far_away_is_none() {
        let last = reading("A5", 1200.0, 1.0);
        assert_eq!(check(reading("A4", -10.0, 2.0), last), Err(Reason::NotSure));
    }

    #[test]
    fn another_name_for_the_same_pitch_is_no_contradiction() {
        let last = reading("B4", -10.0, 1.0);
        assert!(check(reading("A4", -10.5, 1.0), last).is_ok());
    }

    #[test]
    fn too_far_apart_is_no_reading_at_all() {
        let last = reading("A4", 50.0, 1.0);
        assert_eq!(check(reading("A4", -10.0, 2.0), last), Err(Reason::NotSure));
    }
}
