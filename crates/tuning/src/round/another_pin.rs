//! The key on another pin: what is plucked does not change, or what changes was not plucked.

use harp::StringName;

use super::{Round, Say, Warning};
use crate::Reading;

/// Unchanged plucks after the one that told it to move: three in a row.
const THREE: u32 = 2;
/// Strings either way whose pins may have been turned instead.
const BESIDE: usize = 3;
/// Cents beside its interval, from which a string that stood in tune was turned.
const STRAYED: f64 = 8.0;

impl Round {
    /// Three plucks in a row without change, of a string that was told to move.
    pub(super) fn key_elsewhere(&mut self, string: StringName) -> Option<Say> {
        let plucks = self.records.get(&string)?.unchanged + 1;
        if plucks <= THREE {
            return None;
        }
        let order: Vec<StringName> = self.records.keys().copied().collect();
        let at = order.iter().position(|s| *s == string)?;
        let beside = order.get(at.saturating_sub(BESIDE)..(at + BESIDE + 1).min(order.len()))?;
        // where those beside it stand is no longer known
        for other in beside.iter().filter(|s| **s != string) {
            if let Some(record) = self.records.get_mut(other) {
                record.loose = true;
            }
        }
        Some(Say::Warning(Warning::KeyElsewhere { string, plucks }))
    }

    /// Whether the string in hand did not move when it was told to, and this one was heard before: its pin may be the one
    /// that was turned.
    pub(super) fn may_be_turned_by_mistake(&self, string: StringName) -> bool {
        let hand = self.unfinished_hand().and_then(|h| self.records.get(&h));
        let heard = self
            .records
            .get(&string)
            .is_some_and(|r| !r.kept.is_empty());
        heard && hand.is_some_and(|h| h.told.is_some() && h.unchanged > 0)
    }

    /// While one string was told to move and did not, this one, which stood in tune, has moved.
    pub(super) fn another_was_turned(&self, string: StringName, reading: &Reading) -> Option<Say> {
        let expected = self.unfinished_hand().filter(|h| *h != string)?;
        let hand = self.records.get(&expected)?;
        let record = self.records.get(&string)?;
        let by_cents = record.moved_to(reading.heard_hz)?;
        let stood = record.state.is_in_tune() && !record.on_purpose;
        let moved = by_cents.abs() > STRAYED + reading.u95_cents.abs();
        (stood && moved && hand.told.is_some() && hand.unchanged > 0).then_some(Say::Warning(
            Warning::AnotherMoves {
                expected,
                moving: string,
                by_cents,
            },
        ))
    }
}
