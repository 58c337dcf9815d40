//! Which string a pluck is given to. A wrong name breaks strings, so pitch alone names none: a second ground must stand
//! beside it, and where two strings stay possible both are said.

use harp::StringName;

use super::record::Record;
use super::{Round, State, Verdict};
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
pub(super) const TURNED: f64 = 60.0;
/// The same where the pitch was followed live in between.
pub(super) const FOLLOWED: f64 = 25.0;
/// Cents off, and half of the interval, beyond which the ear's word alone is not enough for a string that was not asked for.
const FAR: f64 = 35.0;
const COARSE: f64 = 5.0;
const VERY_COARSE: f64 = 12.0;
/// Certainty below which a coarse reading is not even called in tune.
const NEARLY_SURE: f64 = 0.95;
/// Seconds below which what the next sound ended cannot be told from a syllable.
const CUT_OFF_S: f64 = 0.24;
/// Half a semitone: nearer to this string than to any other.
pub(super) const HALF: f64 = 50.0;

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
            && (reading.string == Some(pin.string()) || self.is_expected_at(pin.string(), hz))
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
        let leaves = self.unfinished_hand().is_some();
        let in_hand = all.iter().any(|s| self.hand == Some(*s));
        let mut ranked: Vec<(u32, StringName)> = Vec::new();
        for s in left {
            // she goes on to the next; but not where the string in hand may be what sounds
            let goes_on = !in_hand && leaves && self.then() == Some(*s);
            let grounds = self.grounds(*s, reading).max(u32::from(goes_on));
            let place = ranked.partition_point(|(other, _)| *other >= grounds);
            ranked.insert(place, (grounds, *s));
        }
        if self.may_have_been_turned_instead(&ranked, reading) {
            return Who::Either(all);
        }
        let who = match ranked.as_slice() {
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
            _ => Who::Either(all.clone()),
        };
        match who {
            Who::Sure(s) if self.is_strange(s, reading) => Who::Either(all),
            who => who,
        }
    }

    /// Whether a string that was named may be found at `hz`: nothing is known of where it is, or it lies on its way.
    fn is_expected_at(&self, string: StringName, hz: f64) -> bool {
        let expected = self.expected_hz(string);
        expected.is_none_or(|(low, high)| (low..=high).contains(&hz))
    }

    /// Whether only the ear speaks for a string, and it stands where a string seldom does, or was read badly, or the sound
    /// began in the middle of it: then it is to be plucked once more.
    fn is_strange(&self, string: StringName, reading: &Reading) -> bool {
        let Some(record) = self.records.get(&string) else {
            return false;
        };
        let (off, u95) = (record.off(reading.heard_hz), reading.u95_cents.abs());
        let judged = Verdict::of(off, u95, self.tolerance(string));
        let doubtful = reading.string_certainty < NEARLY_SURE;
        let coarse = u95 > VERY_COARSE || (u95 > COARSE && (judged == Verdict::Off || doubtful));
        let began = reading.at_s <= 0.0 || reading.listened_s < CUT_OFF_S;
        if reading.at_s <= 0.0 && off.abs() > FAR {
            return true;
        }
        let strange = off.abs() > FAR || coarse || began;
        let known = [self.next(), self.hand, self.then(), self.last].contains(&Some(string))
            || (u95 <= COARSE && self.is_just_there(string, reading))
            || self.may_be_turned_by_mistake(string)
            || record.on_purpose
            || self.is_like_others(off);
        let once_more = self.unnamed.as_ref().is_some_and(|(was, strings)| {
            let moved = pitch::cents(was.heard_hz, reading.heard_hz).abs();
            strings.contains(&string) && moved <= 2.0 + u95 + was.u95_cents.abs()
        });
        strange && !known && !once_more
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
