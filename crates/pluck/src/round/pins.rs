//! Where a pin stands, moment by moment.

use super::{Round, What};
use crate::concert_harp::interpolate;

impl Round {
    /// Where the pin of a string stands at `at_s` seconds of the room's time, as its events count it: cents off the target,
    /// positive is high. `None` where no string has this name.
    ///
    /// Whether the string sounds makes no difference. The first partial stands there too, but for the glide just after a pluck
    /// and the string's falseness.
    ///
    /// ```
    /// use pluck::{Event, Round, RoundString};
    /// let strings = vec![RoundString::new("A4", 440.0, -12.0)];
    /// let round = Round::new(strings, vec![Event::turn(1.0, "A4", -2.0, 2.0)], 1);
    /// let stands = [0.5, 2.0, 9.0].map(|at_s| round.off_cents_at("A4", at_s));
    /// assert_eq!(stands, [Some(-12.0), Some(-7.0), Some(-2.0)]);
    /// assert_eq!(round.off_cents_at("B4", 0.5), None);
    /// ```
    #[must_use]
    pub fn off_cents_at(&self, name: &str, at_s: f64) -> Option<f64> {
        let string = self.strings.iter().find(|s| s.name == name)?;
        let turns = self.events.iter().filter_map(|event| match &event.what {
            What::Turn {
                string,
                to_cents,
                seconds,
            } if string == name => Some((event.at_s, *to_cents, *seconds)),
            _ => None,
        });
        let mut turns: Vec<_> = turns.collect();
        turns.sort_by(|a, b| a.0.total_cmp(&b.0));
        let mut pin = Pin::at(string.off_cents);
        for (at_s, to_cents, seconds) in turns {
            pin.turn(at_s, to_cents, seconds);
        }
        Some(pin.cents(at_s))
    }
}

/// The course of one pin: corners (seconds, cents off the target), straight between them.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Pin {
    corners: Vec<(f64, f64)>,
}

impl Pin {
    pub(crate) fn at(off_cents: f64) -> Self {
        Self {
            corners: vec![(0.0, off_cents)],
        }
    }

    /// Turns the pin from `at_s` on to `to_cents` within `seconds`; turns must be given in the order of their times. A turn
    /// that begins before the last has ended takes over from where the pin stands then.
    pub(crate) fn turn(&mut self, at_s: f64, to_cents: f64, seconds: f64) {
        let here = self.cents(at_s);
        self.corners.retain(|c| c.0 < at_s);
        self.corners.push((at_s, here));
        self.corners.push((at_s + seconds, to_cents));
    }

    /// Cents off the target at this time.
    pub(crate) fn cents(&self, at_s: f64) -> f64 {
        if self.corners.len() == 1 {
            self.corners[0].1
        } else {
            interpolate(&self.corners, at_s)
        }
    }

    /// Whether the pin stands still from one time to another.
    pub(crate) fn still(&self, from_s: f64, to_s: f64) -> bool {
        self.moves().all(|(a, b)| b.0 <= from_s || a.0 >= to_s)
    }

    /// The corners of all moves that touch this stretch of time.
    pub(crate) fn course(&self, from_s: f64, to_s: f64) -> Vec<(f64, f64)> {
        if self.still(from_s, to_s) {
            return Vec::new();
        }
        let inside = self
            .corners
            .iter()
            .copied()
            .filter(|c| c.0 > from_s && c.0 < to_s);
        let ends = |at: f64| (at, self.cents(at));
        std::iter::once(ends(from_s))
            .chain(inside)
            .chain(std::iter::once(ends(to_s)))
            .collect()
    }

    fn moves(&self) -> impl Iterator<Item = ((f64, f64), (f64, f64))> {
        let pairs = self
            .corners
            .iter()
            .copied()
            .zip(self.corners.iter().copied().skip(1));
        pairs.filter(|(a, b)| a.1 != b.1)
    }
}

#[cfg(test)]
mod tests {
    use super::Pin;

    #[test]
    fn a_turned_pin_moves_evenly_and_then_stays() {
        let mut pin = Pin::at(-20.0);
        pin.turn(2.0, 0.0, 4.0);
        for (at, cents) in [
            (0.0, -20.0),
            (2.0, -20.0),
            (3.0, -15.0),
            (6.0, 0.0),
            (90.0, 0.0),
        ] {
            assert!((pin.cents(at) - cents).abs() < 1e-12, "{at} s");
        }
        assert!(pin.still(0.0, 2.0) && !pin.still(1.9, 2.1) && pin.still(6.0, 7.0));
        assert_eq!(
            pin.course(3.0, 7.0),
            vec![(3.0, -15.0), (6.0, 0.0), (7.0, 0.0)]
        );
    }

    #[test]
    fn a_turn_that_interrupts_another_goes_on_from_there() {
        let mut pin = Pin::at(0.0);
        pin.turn(0.0, 10.0, 10.0);
        pin.turn(5.0, 0.0, 1.0);
        assert!((pin.cents(5.5) - 2.5).abs() < 1e-12);
        assert!((pin.cents(8.0)).abs() < 1e-12);
    }
}
