//! Strings a semitone or a tone high: a pedal that is not up, a lever that is on. Asked before any 'down'.

use std::collections::{BTreeMap, BTreeSet};

use harp::{HarpKind, Mechanism, StringName};
use pitch::{Alteration, Letter, cents};

use super::record::{Kept, Record};
use super::{Aside, Round, Say, Warning};

/// Cents above its target, from which a string that is merely found so is asked about.
pub const HIGH_CENTS: f64 = 30.0;
/// Cents beside one or two whole semitones within which a pedal or lever explains it.
const WITHIN_CENTS: f64 = 35.0;
/// Cents within which a string stands in its own position.
const RIGHT_CENTS: f64 = 50.0;
/// Cents within which the same was heard again.
const SAME_CENTS: f64 = 8.0;
/// Plucks in a row heard as something else, from which the string asked for may be what sounds.
const HEARD_AS: u32 = 2;
const HEARD_AS_IN_HAND: u32 = 3;

/// What was heard so far that a pedal or a lever would explain.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Doubts {
    /// strings that sounded so many semitones high, and since when
    high: BTreeMap<StringName, (u32, f64)>,
    /// letters whose pedal or levers she vouches for
    as_said: BTreeSet<Letter>,
    /// the string asked for, what was heard instead in Hz, and how often in a row
    heard_as: Option<(StringName, f64, u32)>,
}

impl Round {
    /// What to ask about a string found high, if anything; until it is answered no direction is said.
    pub(super) fn ask_high(&mut self, string: StringName, off: f64) -> Option<Say> {
        let record = self.records.get(&string)?;
        if off <= HIGH_CENTS
            || record.turned
            || record.on_purpose
            || self.pin == Some(string)
            || self.position.as_said.contains(&string.letter)
        {
            return None;
        }
        let semitones = semitones_high(record, off);
        if let Some(semitones) = semitones {
            let at_s = record.kept.last().map_or(0.0, |k| k.at_s);
            let entry = self.position.high.entry(string);
            entry.or_insert((semitones, at_s)).0 = semitones;
        }
        let asked = self
            .records
            .get_mut(&string)
            .map(|r| std::mem::replace(&mut r.asked, true));
        let found_high = Say::Warning(Warning::FoundHigh {
            string,
            off_cents: off,
        });
        match semitones {
            Some(semitones) if !self.is_contradicted(string) => Some(
                self.moved_by_mechanism(string, semitones)
                    .unwrap_or(found_high),
            ),
            Some(_) => Some(found_high),
            None if asked == Some(false) => Some(found_high),
            None => None,
        }
    }

    /// The string asked for is not heard, and what is heard again and again would be that string, its pedal or lever
    /// not where it should be. `heard` is the string that has the name, none where several are possible.
    pub(super) fn heard_instead(&mut self, heard: Option<StringName>, hz: f64) -> Option<Say> {
        let doubt = self.asked_for_high(heard, hz);
        let Some((expected, semitones)) = doubt else {
            self.position.heard_as = None;
            return None;
        };
        let times = match self.position.heard_as {
            Some((e, was, times)) if e == expected && cents(was, hz).abs() <= SAME_CENTS => {
                times + 1
            }
            _ => 1,
        };
        self.position.heard_as = Some((expected, hz, times));
        // the string in hand may simply be plucked again
        let often = if heard.is_some() && heard == self.hand {
            HEARD_AS_IN_HAND
        } else {
            HEARD_AS
        };
        if times < often || self.letter_was_right(expected, f64::NEG_INFINITY) {
            return None;
        }
        let position = self.records.get(&expected)?.plan.standing.alteration;
        let at_s = self.pace.now_s();
        self.position.high.insert(expected, (semitones, at_s));
        let alone = Say::Warning(Warning::PedalUp {
            letter: expected.letter,
            semitones,
            position,
            strings: vec![expected],
        });
        let pedals = self.plan.kind == HarpKind::Pedal;
        self.moved_by_mechanism(expected, semitones)
            .or(pedals.then_some(alone))
    }

    /// The string asked for and by how many semitones it would be high, if it were what sounds.
    fn asked_for_high(&self, heard: Option<StringName>, hz: f64) -> Option<(StringName, u32)> {
        let expected = self
            .next()
            .filter(|e| heard != Some(*e) && self.pin.is_none())?;
        let asked_for = self.records.get(&expected).filter(|r| !r.turned)?;
        if let Some(neighbour) = heard.and_then(|h| self.records.get(&h)) {
            let moved = neighbour.moved_to(hz).filter(|_| neighbour.is_settled())?;
            if moved.abs() > SAME_CENTS {
                return None;
            }
        }
        Some((expected, semitones_high(asked_for, asked_for.off(hz))?))
    }

    /// The letter's pedal or the levers do stand as she said: what was found high is high.
    pub(super) fn as_said(&mut self, letter: Letter) {
        self.position.as_said.insert(letter);
        self.position.high.retain(|s, _| s.letter != letter);
    }

    /// A string that stood high and now stands where it should, its pin not turned: what was read high was of another
    /// position.
    pub(super) fn position_was_put_right(&mut self, string: StringName, change: f64) -> bool {
        let Some((semitones, _)) = self.position.high.get(&string).copied() else {
            return false;
        };
        let Some(record) = self.records.get_mut(&string) else {
            return false;
        };
        let fell = (1..=semitones).any(|n| (change + 100.0 * f64::from(n)).abs() <= WITHIN_CENTS);
        if !fell || !record.live.is_empty() {
            return false;
        }
        let mut kept = std::mem::take(&mut record.kept);
        let high = |k: &&mut Kept| semitones_high(record, k.off_cents).is_some();
        for reading in kept.iter_mut().filter(high) {
            reading.aside.get_or_insert(Aside::Position);
        }
        record.kept = kept;
        record.asked = false;
        self.position.high.remove(&string);
        true
    }

    /// A string that nobody was told to turn now stands a semitone or a tone higher: a pedal or a lever was moved.
    pub(super) fn position_was_lost(&self, string: StringName, change: f64, hz: f64) -> bool {
        let untouched = |r: &&Record| r.told.is_none() && r.live.is_empty();
        let record = self.records.get(&string).filter(untouched);
        let semitones = record.and_then(|r| semitones_high(r, r.off(hz)));
        semitones.is_some_and(|n| (change - 100.0 * f64::from(n)).abs() <= WITHIN_CENTS)
    }

    /// A string that stands near its target is no longer thought to be moved by anything.
    pub(super) fn stands_right(&mut self, string: StringName, off: f64) {
        if off.abs() <= RIGHT_CENTS {
            self.position.high.remove(&string);
        }
    }

    fn moved_by_mechanism(&self, string: StringName, semitones: u32) -> Option<Say> {
        if self.plan.kind == HarpKind::Lever {
            return Some(Say::Warning(Warning::LeverOff { string }));
        }
        let position = self.records.get(&string)?.plan.standing.alteration;
        let same =
            |(s, (n, _)): &(&StringName, &(u32, f64))| s.letter == string.letter && *n == semitones;
        let strings: Vec<StringName> = self
            .position
            .high
            .iter()
            .filter(same)
            .map(|(s, _)| *s)
            .collect();
        (strings.len() > 1).then_some(Say::Warning(Warning::PedalUp {
            letter: string.letter,
            semitones,
            position,
            strings,
        }))
    }

    /// Whether another string of the letter stood right after the first of them stood high. One that stood right
    /// before says nothing: a pedal can slip in the middle of a round.
    fn is_contradicted(&self, string: StringName) -> bool {
        let same = self
            .position
            .high
            .iter()
            .filter(|(s, _)| s.letter == string.letter);
        let since_s = same
            .map(|(_, (_, at_s))| *at_s)
            .fold(f64::INFINITY, f64::min);
        self.letter_was_right(string, since_s)
    }

    /// Whether another string of the letter was heard in its own position after a second.
    pub(super) fn letter_was_right(&self, string: StringName, since_s: f64) -> bool {
        let right = |r: &Record| {
            let other = r.string() != string && r.string().letter == string.letter;
            let last = r
                .kept
                .last()
                .filter(|k| k.aside.is_none() && k.at_s > since_s);
            other
                && r.plan.mechanism == Mechanism::Discs
                && last.is_some_and(|k| k.off_cents.abs() <= RIGHT_CENTS)
        };
        self.plan.kind == HarpKind::Pedal && self.records.values().any(right)
    }
}

/// How many semitones high a string stands, where its mechanism can have done that.
pub(super) fn semitones_high(record: &Record, off: f64) -> Option<u32> {
    let most = match (record.plan.mechanism, record.plan.standing.alteration) {
        (Mechanism::Nothing, _) | (_, Alteration::Sharp) => 0,
        (Mechanism::Lever, _) | (Mechanism::Discs, Alteration::Natural) => 1,
        (Mechanism::Discs, Alteration::Flat) => 2,
    };
    (1..=most).find(|n| (off - 100.0 * f64::from(*n)).abs() <= WITHIN_CENTS)
}
