//! A wire heard an octave high: its second partial was louder than its first, or its octave was plucked instead.

use harp::StringName;

use super::{Round, Say, Warning};
use crate::Reading;

/// Cents within which a settled octave stands where it was: then it may well have been plucked, to compare.
const JUST_THERE: f64 = 4.0;

/// Certainty of the ear, below which a string may be its octave.
const CERTAIN: f64 = 0.97;
/// Certainty below which, or half interval in cents above which, it may be an octave of the string in hand.
const QUITE: f64 = 0.93;
const COARSE: f64 = 1.5;

/// Partials of the string asked for that may be heard for it, and cents from their place.
const PARTIALS: [f64; 4] = [2.0, 3.0, 4.0, 5.0];
const NEAR: f64 = 40.0;

/// What was last heard as the octave of a wire that was asked for, and nothing else since.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Heard {
    /// Nothing.
    #[default]
    Nothing,
    /// Once, where the octave stands: it was followed.
    Once(StringName),
    /// It was asked about.
    Asked(StringName),
}

impl Round {
    /// Where a wire was asked for and its octave was heard: both are possible, and nothing is kept.
    pub(super) fn octave_high(
        &mut self,
        heard_as: StringName,
        reading: &Reading,
    ) -> Option<Vec<Say>> {
        let hz = reading.heard_hz;
        let expected = match self.octave {
            Heard::Once(wire) | Heard::Asked(wire) if heard_as == octave_of(wire) => wire,
            _ => self.next()?,
        };
        let unsure = reading.string_certainty < CERTAIN;
        let coarse = reading.string_certainty < QUITE || reading.u95_cents.abs() > COARSE;
        let either = unsure
            .then(|| self.octave_low(expected, heard_as, hz))
            .flatten()
            .or_else(|| self.octave_up(expected, heard_as, hz, (unsure, coarse)));
        if either.is_some() {
            return either;
        }
        let wire = self.records.get(&expected)?.plan.wire;
        if !wire || heard_as != octave_of(expected) {
            self.octave = Heard::Nothing;
            return None;
        }
        let octave = self.records.get(&heard_as)?;
        let moved = octave.moved_to(hz).filter(|_| octave.is_settled());
        let there = moved.is_some_and(|cents| cents.abs() <= JUST_THERE);
        if there && self.octave == Heard::Nothing {
            self.octave = Heard::Once(expected);
            return None;
        }
        let mut says = Vec::new();
        if !matches!(self.octave, Heard::Asked(_)) {
            says.push(Say::Warning(Warning::OctaveHigh { expected, heard_as }));
        }
        self.octave = Heard::Asked(expected);
        says.push(Say::Which(vec![expected, heard_as]));
        Some(says)
    }
}

impl Round {
    /// Where a coarse or unsure word names what may be a partial of another string: of the one asked for, or the second of
    /// the one in hand, which stands just there, and the octave was not heard before.
    fn octave_up(
        &self,
        expected: StringName,
        heard_as: StringName,
        hz: f64,
        (unsure, coarse): (bool, bool),
    ) -> Option<Vec<Say>> {
        let new = self.records.get(&heard_as)?.kept.is_empty();
        if expected == heard_as || self.hand == Some(heard_as) {
            return None;
        }
        let just_there = |s: &StringName| {
            let moved = self.records.get(s).and_then(|r| r.moved_to(0.5 * hz));
            moved.is_some_and(|cents| cents.abs() <= 2.0 * JUST_THERE)
        };
        let in_hand =
            (self.hand).filter(|s| new && coarse && octave_of(*s) == heard_as && just_there(s));
        let off = |n: f64| self.records.get(&expected).map(|r| r.off(hz / n).abs());
        let partial = PARTIALS
            .iter()
            .any(|n| off(*n).is_some_and(|off| off <= NEAR));
        let asked_for = Some(expected).filter(|_| (unsure || coarse) && partial);
        let lower = in_hand.or(asked_for)?;
        Some(vec![Say::Which(vec![lower, heard_as])])
    }

    /// Where a string was asked for, or is in hand and stands just there, and the one an octave below was heard, not quite
    /// surely: in noise it may be either.
    fn octave_low(&self, expected: StringName, heard_as: StringName, hz: f64) -> Option<Vec<Say>> {
        let above = octave_of(heard_as);
        let rings = self.records.get(&above).and_then(|r| r.moved_to(2.0 * hz));
        let in_hand =
            self.hand == Some(above) && rings.is_some_and(|c| c.abs() <= 2.0 * JUST_THERE);
        let known = self.hand == Some(heard_as) || self.state(heard_as)?.is_settled();
        let either = (expected == above || in_hand) && !known;
        either.then(|| vec![Say::Which(vec![heard_as, above])])
    }
}

fn octave_of(string: StringName) -> StringName {
    StringName {
        octave: string.octave.saturating_add(1),
        ..string
    }
}
