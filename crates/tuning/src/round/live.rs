//! A string followed while its pin is turned: said, never kept.

use harp::StringName;

use super::amount::way;
use super::{Moving, Round, Say, State, Warning};
use crate::Direction;

/// Cents from where it was plucked, beyond its interval, from which a ringing string is being turned.
const MOVED: f64 = 4.0;
/// The same for a string that nobody was asked to turn: strings ring along and waver.
const STRAYED: f64 = 10.0;
/// Cents beyond the tolerance within which a string that came inside only wavers.
const WAVERS: f64 = 2.0;
/// Seconds of live pitch that are remembered.
const REMEMBERED_S: f64 = 3.0;

impl Round {
    pub(super) fn live(&mut self, moving: &Moving) -> Vec<Say> {
        let usable = moving.hz.is_finite() && moving.hz > 0.0 && moving.u95_cents.is_finite();
        let Some(string) = self.whose(moving.string, moving.hz).filter(|_| usable) else {
            return Vec::new();
        };
        let u95 = moving.u95_cents.abs();
        let expected = self.unfinished_hand().or_else(|| self.next());
        let own = self.hand == Some(string) || expected == Some(string);
        let least = if own { MOVED } else { STRAYED } + u95;
        let Some(record) = self.records.get(&string) else {
            return Vec::new();
        };
        // nothing may be said of a string that has not been heard, and a broken one does not ring
        let Some(plucked) = record.plucked_hz.filter(|_| record.state != State::Broken) else {
            return Vec::new();
        };
        let moved = pitch::cents(plucked, moving.hz);
        let rising = record.moved_to(moving.hz).is_some_and(|c| c > 0.0);
        let under_way = record.state == State::Moving || record.turned;
        if moved.abs() <= least && !(under_way && own) {
            return Vec::new();
        }
        // the key turns the way it was told to, whatever pin it is on
        let way = expected.filter(|_| !own && !record.on_purpose);
        if way.is_some_and(|expected| !self.is_that_way(expected, moved)) {
            return Vec::new();
        }
        let Some(record) = self.records.get_mut(&string) else {
            return Vec::new();
        };
        let anew = record.live.is_empty();
        record.now_hz = Some(moving.hz);
        record.live.push((moving.at_s, moving.hz));
        record
            .live
            .retain(|(at, _)| *at > moving.at_s - REMEMBERED_S);
        record.turned |= moved.abs() > least;
        let on_purpose = record.on_purpose;
        match expected {
            Some(expected) if !own && !on_purpose => {
                self.another_moves(expected, string, moved, anew)
            }
            _ => self.followed(string, moving.hz, u95, rising && moved > least),
        }
    }

    fn is_that_way(&self, expected: StringName, moved: f64) -> bool {
        match self.records.get(&expected).and_then(|r| r.told) {
            Some(Direction::Up) => moved > 0.0,
            Some(Direction::Down) => moved < 0.0,
            _ => true,
        }
    }

    fn another_moves(
        &mut self,
        expected: StringName,
        moving: StringName,
        by_cents: f64,
        anew: bool,
    ) -> Vec<Say> {
        self.set(moving, State::Moving);
        if !anew {
            return Vec::new();
        }
        vec![Say::Warning(Warning::AnotherMoves {
            expected,
            moving,
            by_cents,
        })]
    }

    fn followed(&mut self, string: StringName, hz: f64, u95: f64, rising: bool) -> Vec<Say> {
        self.set(string, State::Moving);
        let tolerance = self.tolerance(string);
        let Some(record) = self.records.get(&string) else {
            return Vec::new();
        };
        let off = record.off(hz);
        let was_over = record.over;
        let stop = self.over_pull(string, off, rising);
        let inside = off.abs() <= tolerance;
        let mut says: Vec<Say> = stop.filter(|_| !was_over).into_iter().collect();
        says.push(Say::Moving {
            string,
            off_cents: off,
            u95_cents: u95,
            way: if inside { Direction::There } else { way(off) },
        });
        if let Some(record) = self.records.get_mut(&string) {
            if inside && !record.enough {
                says.push(Say::Enough(string));
            }
            // said once, though it wavers at the edge
            record.enough = inside || (record.enough && off.abs() <= tolerance + WAVERS);
        }
        says
    }
}
