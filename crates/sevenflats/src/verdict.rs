//! What a reading means for the hand: in tune, near, so much up or down, or nothing that may be said.

use tuning::round::{Amount, HIGH_CENTS, Tolerance, Verdict as Judged};
use tuning::{Direction, Reading};

/// What a reading means for the hand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Verdict {
    /// Inside the tolerance, and surely enough.
    InTune,
    /// As near as this reading can tell, which is not near enough to say.
    Near,
    /// It has to go up.
    Up(Amount),
    /// It has to go down.
    Down(Amount),
    /// Further above its target than a string slips: is something else the matter?
    High(Amount),
    /// Another string explains the pluck nearly as well: no direction.
    WhichString,
}

impl Verdict {
    /// Judges one reading.
    pub fn of(reading: &Reading) -> Verdict {
        let (Some(string), Some(direction)) = (reading.string, reading.direction) else {
            return Verdict::WhichString;
        };
        let off = reading.off_cents;
        match Judged::of(off, reading.u95_cents, Tolerance::default().of(string)) {
            Judged::InTune => return Verdict::InTune,
            Judged::Near => return Verdict::Near,
            Judged::Off => {}
        }
        match direction {
            Direction::There => Verdict::Near,
            Direction::Up => Verdict::Up(Amount::of(off)),
            Direction::Down if off > HIGH_CENTS => Verdict::High(Amount::of(off)),
            Direction::Down => Verdict::Down(Amount::of(off)),
        }
    }

    /// Whether a key will be turned so far that the string may break.
    pub fn asks_for_care(self) -> bool {
        matches!(self, Verdict::High(_) | Verdict::Up(Amount::Half))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::example::reading;

    fn check(string: &str, off: f64, u95: f64, expected: Verdict) {
        let direction = if off < 0.0 {
            Direction::Up
        } else {
            Direction::Down
        };
        assert_eq!(
            Verdict::of(&reading(string, off, u95, Some(direction))),
            expected
        );
    }

    #[test]
    fn the_further_off_the_larger_the_word() {
        check("G3", -4.0, 0.5, Verdict::Up(Amount::Hair));
        check("G3", -12.0, 0.5, Verdict::Up(Amount::Little));
        check("G3", -40.0, 0.5, Verdict::Up(Amount::More));
        check("G3", -70.0, 0.5, Verdict::Up(Amount::Half));
        check("G3", 12.0, 0.5, Verdict::Down(Amount::Little));
    }

    #[test]
    fn a_string_found_high_is_a_question() {
        check("G3", 31.0, 0.5, Verdict::High(Amount::More));
        assert!(Verdict::High(Amount::More).asks_for_care());
    }

    #[test]
    fn the_tolerance_is_wider_in_the_lowest_and_the_highest_octaves() {
        check("C3", 2.9, 0.5, Verdict::InTune);
        check("C7", 3.1, 0.5, Verdict::Down(Amount::Hair));
        check("D7", 3.1, 0.5, Verdict::InTune);
        check("B2", -4.9, 0.5, Verdict::InTune);
    }

    #[test]
    fn a_wide_interval_cannot_say() {
        check("G3", 1.0, 4.6, Verdict::Near);
        check("C1", 9.0, 12.0, Verdict::Near);
    }

    #[test]
    fn where_another_string_is_possible_no_direction_is_given() {
        assert_eq!(
            Verdict::of(&reading("C4", 55.0, 0.5, None)),
            Verdict::WhichString
        );
    }
}
