//! A reading is kept, and shows what changed since the string's last pluck.

use harp::StringName;

use super::Round;
use super::record::{Kept, Record};
use crate::{Direction, Reading};

/// Cents beside both intervals, beyond which two plucks show that the pin was turned.
const MOVED: f64 = 4.0;
/// Cents within which nothing has changed, or the interval if that is wider; but of a short way no more than this share,
/// for a hair is turned by less than three cents.
const UNCHANGED: f64 = 3.0;
const LITTLE: f64 = 0.25;

/// What changed since the string's last pluck.
#[derive(Clone, Copy, Debug)]
pub(super) struct Change {
    /// cents; nought for a first pluck
    pub(super) cents: f64,
    /// whether the pin was turned
    pub(super) turned: bool,
    /// whether it moved while it was read
    pub(super) disturbed: bool,
}

impl Round {
    /// Adds a reading to a string; `None` where there is no such string.
    pub(super) fn keep(&mut self, string: StringName, reading: &Reading) -> Option<Change> {
        let record = self.records.get(&string)?;
        let (hz, u95) = (reading.heard_hz, reading.u95_cents.abs());
        let cents = record.plucked_hz.map_or(0.0, |was| pitch::cents(was, hz));
        let by_mechanism =
            self.position_was_put_right(string, cents) || self.position_was_lost(string, cents, hz);
        let own_s = self.pace.own_s();
        let record = self.records.get_mut(&string)?;
        let before_u95 = record.kept.last().map_or(0.0, |k| k.u95_cents);
        let change = Change {
            cents,
            turned: !by_mechanism && cents.abs() > MOVED + u95.hypot(before_u95),
            disturbed: moved_within(record, reading),
        };
        let told = matches!(record.told, Some(Direction::Up | Direction::Down));
        let was_off = record.kept.last().map_or(0.0, |k| k.off_cents.abs());
        let unchanged = told && cents.abs() <= UNCHANGED.max(u95).min(LITTLE * was_off);
        record.unchanged = if unchanged { record.unchanged + 1 } else { 0 };
        record.turned |= change.turned;
        if change.turned && !record.fitted {
            self.moves.push((own_s, string, cents));
        }
        record.kept.push(Kept {
            at_s: reading.at_s,
            target_hz: record.target_hz(),
            heard_hz: hz,
            off_cents: record.off(hz),
            u95_cents: u95,
            b: reading.b.is_finite().then_some(reading.b),
            t60_s: reading.t60_s,
            level_dbfs: reading.level_dbfs,
            aside: None,
        });
        record.plucked_hz = Some(hz);
        record.now_hz = Some(hz);
        record.live.clear();
        record.enough = false;
        record.loose = false;
        record.placed = None;
        let off = record.off(hz);
        self.stands_right(string, off);
        Some(change)
    }
}

/// Whether the string moved between a pluck's onset and the end of its listening.
fn moved_within(record: &Record, reading: &Reading) -> bool {
    let end = reading.at_s + reading.listened_s;
    let during = record
        .live
        .iter()
        .filter(|(at, _)| *at > reading.at_s && *at <= end);
    let off: Vec<f64> = during.map(|(_, hz)| record.off(*hz)).collect();
    let highest = off.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    let lowest = off.iter().copied().fold(f64::INFINITY, f64::min);
    highest - lowest > MOVED + reading.u95_cents.abs()
}
