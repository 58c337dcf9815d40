//! What speaks for a string beside its pitch.
//!
//! The grounds: its pin is being turned and the pitch goes on from where it was; it stands just where it was heard; it
//! is the one asked for; it is as far off as all others are; the ear knows of no other; every other string within reach
//! is known to stand elsewhere. What she says herself needs none of them.

use harp::StringName;

use super::Round;
use super::identity::{FOLLOWED, HALF, TURNED};
use super::position::semitones_high;
use crate::Reading;

/// Cents beside both intervals, within which a settled string stands just where it was.
const JUST_THERE: f64 = 2.0;
/// Cents beyond which a settled string is known to stand elsewhere.
const ELSEWHERE: f64 = 20.0;
/// Seconds after the last live word on a string, from which it may have gone on unheard.
const LOST_S: f64 = 0.7;
/// Cents from what is common to all, within which a string is like them.
const LIKE_OTHERS: f64 = 15.0;

impl Round {
    /// Whether a string is known to stand elsewhere than at `hz`. A pedal or lever may have moved it, which is thought
    /// of where no other string is near its target.
    pub(super) fn stands_elsewhere(&self, string: StringName, all: &[StringName], hz: f64) -> bool {
        let Some(record) = self.records.get(&string) else {
            return false;
        };
        let moved = record.moved_to(hz).map_or(0.0, f64::abs);
        let in_hand = self.hand == Some(string);
        if moved <= TURNED && self.may_be_turned_by_mistake(string) {
            return false;
        }
        let by_mechanism = semitones_high(record, record.off(hz)).is_some()
            && !self.is_near_another(string, all, hz);
        record.is_settled() && !by_mechanism && moved > if in_hand { TURNED } else { ELSEWHERE }
    }

    /// Whether another string is nearer to its target than half a semitone.
    fn is_near_another(&self, string: StringName, all: &[StringName], hz: f64) -> bool {
        let mut others = all.iter().filter(|s| **s != string);
        others.any(|s| self.records.get(s).is_some_and(|r| r.off(hz).abs() <= HALF))
    }

    /// Whether the key was asked after, and another's pin may be what was turned: then only a string that stands just
    /// where it was has its name.
    pub(super) fn may_have_been_turned_instead(
        &self,
        ranked: &[(u32, StringName)],
        reading: &Reading,
    ) -> bool {
        let Some((_, best)) = ranked.first() else {
            return false;
        };
        let others = ranked.iter().skip(1);
        let loose = |(_, s): &(u32, StringName)| self.records.get(s).is_some_and(|r| r.loose);
        others.clone().any(loose) && !self.is_just_there(*best, reading)
    }

    /// A string beyond the middle needs one more ground where another is nearer to its own target, and one far too low
    /// where another's pedal or lever would explain what sounds.
    pub(super) fn doubt(&self, string: StringName, left: &[StringName], hz: f64) -> u32 {
        let off = self.records.get(&string).map_or(0.0, |r| r.off(hz));
        let high = |s: &StringName| {
            let other = self.records.get(s).filter(|_| *s != string);
            other.is_some_and(|r| semitones_high(r, r.off(hz)).is_some())
        };
        let nearer = off.abs() > HALF && self.is_near_another(string, left, hz);
        u32::from(nearer || (off < -HALF && left.iter().any(high)))
    }

    /// Whether the string asked for may be what sounds, its pedal or lever not where it should be.
    fn may_be_the_one_asked_for(&self, heard: StringName, hz: f64) -> bool {
        let asked = self.next().filter(|s| *s != heard);
        asked.is_some_and(|s| self.may_be_high(s, hz))
    }

    /// Whether a string that has not been heard would be a semitone or a tone high, if it were what sounds; not where
    /// another of its letter stands right, which the same pedal moves.
    pub(super) fn may_be_high(&self, string: StringName, hz: f64) -> bool {
        let unheard = self.records.get(&string).filter(|r| r.kept.is_empty());
        unheard.is_some_and(|r| semitones_high(r, r.off(hz)).is_some())
            && !self.letter_was_right(string, f64::NEG_INFINITY)
    }

    /// How much speaks for a string beside its pitch.
    pub(super) fn grounds(&self, string: StringName, reading: &Reading) -> u32 {
        let Some(record) = self.records.get(&string) else {
            return 0;
        };
        let known = record.moved_to(reading.heard_hz);
        let in_hand = self.hand == Some(string);
        let followed = |at: f64| reading.at_s - at < LOST_S;
        let jump = if record.live.last().is_some_and(|(at, _)| followed(*at)) {
            FOLLOWED
        } else {
            TURNED
        };
        let goes_on = in_hand && known.is_some_and(|moved| moved.abs() <= jump);
        let just_there = self.is_just_there(string, reading);
        // a string in hand that would have had to jump is not what its turn in the order speaks for
        let its_turn = self.next() == Some(string) && (!in_hand || goes_on || known.is_none());
        // of two strings a semitone either way the ear leaves one out as too far: that is no ground
        let ear = reading.direction.is_some()
            && record.off(reading.heard_hz).abs() <= HALF
            && reading.string == Some(string)
            && reading.candidates.iter().all(|c| *c == string);
        let ear = match self.may_be_the_one_asked_for(string, reading.heard_hz) {
            true => u32::from(ear),
            false => 2 * u32::from(ear),
        };
        2 * u32::from(goes_on)
            + 2 * u32::from(just_there)
            + ear
            + u32::from(its_turn)
            + u32::from(record.kept.is_empty() && self.is_like_others(record.off(reading.heard_hz)))
    }

    /// Whether a string whose place is known sounds just there.
    pub(super) fn is_just_there(&self, string: StringName, reading: &Reading) -> bool {
        let Some(record) = self.records.get(&string) else {
            return false;
        };
        let known = record.is_settled() || self.hand == Some(string) || record.placed.is_some();
        let kept = record.kept.last().map_or(0.0, |k| k.u95_cents);
        let last = record.placed.unwrap_or(kept);
        let moved = record.moved_to(reading.heard_hz).filter(|_| known);
        moved.is_some_and(|cents| cents.abs() <= JUST_THERE + last + reading.u95_cents.abs())
    }

    pub(super) fn is_like_others(&self, off: f64) -> bool {
        self.common_offset()
            .is_some_and(|common| (off - common).abs() <= LIKE_OTHERS)
    }
}
