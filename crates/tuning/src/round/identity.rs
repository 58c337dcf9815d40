//! Which string a pluck is given to. A wrong name breaks strings, so pitch alone names none: a second ground must stand
//! beside it, and where two strings stay possible both are said.
//!
//! The grounds: she said which; its pin is being turned and the pitch goes on from where it was; it stands just where it
//! was heard; it is the one asked for; it is as far off as all others are; the ear knows of no other; every other string
//! within reach is known to stand elsewhere.

use harp::StringName;

use super::position::semitones_high;
use super::record::Record;
use super::{Round, State};
use crate::Reading;

/// Certainty of the ear, from which its word counts.
const CERTAIN: f64 = 0.75;
/// Cents from its target within which a string may be what sounds: a semitone, and what the ear may be wrong by.
const REACH: f64 = 112.0;
/// Cents beside the interval, beyond which a string need not be thought to be off (as the ear has it).
const SEMITONE: f64 = 96.0;
/// A string that was named, or is new: a fourth below and more, a tone above, as far as the ear follows it.
const PINNED: (f64, f64) = (-560.0, 260.0);
/// A new string that has slipped, and one without discs set to another pitch.
const SLIPPED: (f64, f64) = (-320.0, 112.0);
const RESET: (f64, f64) = (-320.0, 320.0);
/// Cents that a pin may be turned between two plucks without losing its string's name.
const TURNED: f64 = 60.0;
/// The same where the pitch was followed live in between.
const FOLLOWED: f64 = 25.0;
/// Half a semitone: nearer to this string than to any other.
const HALF: f64 = 50.0;
/// Cents beside both intervals, within which a settled string stands just where it was.
const JUST_THERE: f64 = 2.0;
/// Cents beyond which a settled string is known to stand elsewhere.
const ELSEWHERE: f64 = 20.0;
/// Cents from what is common to all, within which a string is like them.
const LIKE_OTHERS: f64 = 15.0;

/// Whose pluck it is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Who {
    /// This string's.
    Sure(StringName),
    /// One of these; no direction.
    Either(Vec<StringName>),
    /// No string's that stands.
    Nobody,
}

impl Round {
    pub(super) fn who(&self, reading: &Reading) -> Who {
        let hz = reading.heard_hz;
        if let Some(pin) = self.pin.and_then(|p| self.records.get(&p))
            && within(pin.off(hz), PINNED)
        {
            return Who::Sure(pin.string());
        }
        let all = self.possible(reading);
        if all.is_empty() {
            return Who::Nobody;
        }
        if belief(reading) < CERTAIN {
            return Who::Either(all);
        }
        let here: Vec<StringName> = (all.iter().copied())
            .filter(|s| !self.stands_elsewhere(*s, &all, hz))
            .collect();
        let left = if here.is_empty() { &all } else { &here };
        let leaves = self.unfinished_hand().is_some() && self.asked.is_none();
        let in_hand = all.iter().any(|s| self.hand == Some(*s));
        let mut ranked: Vec<(u32, StringName)> = (left.iter())
            .map(|s| {
                // she goes on to the next; but not where the string in hand may be what sounds
                let goes_on = !in_hand && leaves && self.then() == Some(*s);
                (self.grounds(*s, reading).max(u32::from(goes_on)), *s)
            })
            .collect();
        ranked.sort_by_key(|(grounds, _)| std::cmp::Reverse(*grounds));
        if self.may_have_been_turned_instead(&ranked, reading) {
            return Who::Either(all);
        }
        match ranked.as_slice() {
            [(grounds, s)]
                if *grounds > 0
                    || reading.string == Some(*s)
                    // all others are known to stand elsewhere
                    || (here.len() == 1 && reading.candidates.contains(s)) =>
            {
                Who::Sure(*s)
            }
            [(first, s), (second, _), ..] if *first > second + self.doubt(*s, left, hz) => {
                Who::Sure(*s)
            }
            _ => Who::Either(all),
        }
    }

    /// Every string that could sound this, from the bass.
    fn possible(&self, reading: &Reading) -> Vec<StringName> {
        let hz = reading.heard_hz;
        let asked_for = self.next();
        let can = |r: &&Record| {
            let (string, off) = (r.string(), r.off(hz));
            let named = reading.string == Some(string) || reading.candidates.contains(&string);
            let asked = asked_for == Some(string);
            let reach = if asked {
                self.reach(r)
            } else {
                (-REACH, REACH)
            };
            r.state != State::Broken
                && (within(off, reach)
                    || (named && off.abs() <= REACH + 30.0)
                    || (asked && self.last.is_some() && self.may_be_high(string, hz)))
        };
        let all: Vec<&Record> = self.records.values().filter(can).collect();
        // beside a string near its target, one that would have to be a whole semitone off is none: but for the one
        // asked for, whose pedal or lever may do that
        let near = all.iter().any(|r| r.off(hz).abs() <= HALF);
        let farthest = if near {
            SEMITONE + reading.u95_cents.abs()
        } else {
            f64::INFINITY
        };
        let left = all
            .into_iter()
            .filter(|r| asked_for == Some(r.string()) || r.off(hz).abs() <= farthest);
        left.map(Record::string).collect()
    }

    /// How far from its target the string asked for may be.
    fn reach(&self, record: &Record) -> (f64, f64) {
        if record.state == State::New {
            if record.reached { SLIPPED } else { PINNED }
        } else if self.plan.is_discless(&record.plan) {
            RESET
        } else {
            (-REACH, REACH)
        }
    }

    /// Whether a string is known to stand elsewhere than at `hz`. A pedal or lever may have moved it, which is thought
    /// of where no other string is near its target.
    fn stands_elsewhere(&self, string: StringName, all: &[StringName], hz: f64) -> bool {
        let Some(record) = self.records.get(&string) else {
            return false;
        };
        let moved = record.moved_to(hz).map_or(0.0, f64::abs);
        let in_hand = self.hand == Some(string);
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
    fn may_have_been_turned_instead(
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
    fn doubt(&self, string: StringName, left: &[StringName], hz: f64) -> u32 {
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

    /// Whether a string that has not been heard would be a semitone or a tone high, if it were what sounds.
    fn may_be_high(&self, string: StringName, hz: f64) -> bool {
        let unheard = self.records.get(&string).filter(|r| r.kept.is_empty());
        unheard.is_some_and(|r| semitones_high(r, r.off(hz)).is_some())
    }

    /// How much speaks for a string beside its pitch.
    fn grounds(&self, string: StringName, reading: &Reading) -> u32 {
        let Some(record) = self.records.get(&string) else {
            return 0;
        };
        let known = record.moved_to(reading.heard_hz);
        let in_hand = self.hand == Some(string);
        let jump = if record.live.is_empty() {
            TURNED
        } else {
            FOLLOWED
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
    fn is_just_there(&self, string: StringName, reading: &Reading) -> bool {
        let Some(record) = self.records.get(&string) else {
            return false;
        };
        let known = record.is_settled() || self.hand == Some(string) || record.placed.is_some();
        let kept = record.kept.last().map_or(0.0, |k| k.u95_cents);
        let last = record.placed.unwrap_or(kept);
        let moved = record.moved_to(reading.heard_hz).filter(|_| known);
        moved.is_some_and(|cents| cents.abs() <= JUST_THERE + last + reading.u95_cents.abs())
    }

    fn is_like_others(&self, off: f64) -> bool {
        self.common_offset()
            .is_some_and(|common| (off - common).abs() <= LIKE_OTHERS)
    }

    /// The last pluck might have been this string's or another's, and this string is heard elsewhere: so it was the
    /// other's, and where that one stands is known from now on. Nothing is kept for it: no one was told so then.
    pub(super) fn the_other_of_two(&mut self, string: StringName, hz: f64) {
        let Some((reading, strings)) = self.unnamed.take() else {
            return;
        };
        let other = match strings.as_slice() {
            [a, b] if *a == string => *b,
            [a, b] if *b == string => *a,
            _ => return,
        };
        if pitch::cents(reading.heard_hz, hz).abs() <= TURNED {
            return;
        }
        let unheard = |r: &&mut Record| r.kept.is_empty();
        if let Some(record) = self.records.get_mut(&other).filter(unheard) {
            record.now_hz = Some(reading.heard_hz);
            record.placed = Some(reading.u95_cents.abs());
        }
    }

    /// Whose a live pitch is: a string in hand keeps its name as long as its pitch goes on from where it was.
    pub(super) fn whose(&self, string: StringName, hz: f64) -> Option<StringName> {
        let goes_on = |s: &StringName, jump: f64| {
            let record = self.records.get(s);
            record
                .and_then(|r| r.moved_to(hz))
                .is_some_and(|moved| moved.abs() <= jump)
        };
        if let Some(pin) = self.pin.filter(|p| *p == string || goes_on(p, TURNED)) {
            return Some(pin);
        }
        if let Some(hand) = self.hand.filter(|h| *h != string && goes_on(h, FOLLOWED))
            && !goes_on(&string, FOLLOWED)
        {
            return Some(hand);
        }
        self.records.contains_key(&string).then_some(string)
    }
}

/// How far the ear believes what it says: where it calls two strings possible it halves its certainty, and the choice
/// between those two is made here.
fn belief(reading: &Reading) -> f64 {
    let shared = reading.string.is_none() && reading.candidates.len() > 1;
    let doubled = if shared { 2.0 } else { 1.0 };
    doubled * reading.string_certainty
}

fn within(off: f64, (from, to): (f64, f64)) -> bool {
    off >= from && off <= to
}
