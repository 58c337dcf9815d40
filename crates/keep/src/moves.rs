//! How strings moved by themselves, and how each moved against its neighbours over the same time.

use std::collections::BTreeMap;

use diary::{HarpKnown, Moment, Point, StringKnown};
use harp::{Harp, StringName};

use crate::DAY_S;
use crate::spread::Spread;

/// Neighbours that are asked: the nearest of the same kind, wires or others.
const NEIGHBOURS: usize = 6;
/// So many of them must have been read over the same time.
const LEAST: usize = 3;
/// Seconds by which two strings of one round may be read apart.
const SAME_TIME_S: f64 = 7200.0;
/// Moves over less or more days say little.
const DAYS: (f64, f64) = (0.3, 6.0);
/// A neighbour younger than so many days moves for reasons of its own.
const SETTLED: f64 = 21.0;
/// Nothing older than so many days is asked.
const PAST: f64 = 400.0;

/// A move against the neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Excess {
    pub(crate) from: Moment,
    pub(crate) to: Moment,
    /// Up is above nought, cents.
    pub(crate) cents: f64,
    /// Standard deviation of the readings, and of what the neighbours' middle is worth, cents.
    pub(crate) sd: f64,
    /// What the neighbours did, cents.
    pub(crate) neighbours_cents: f64,
    /// Days that the string had been on; `None` where that was not written.
    pub(crate) age: Option<f64>,
    /// Which string of this place, counted by fittings.
    pub(crate) string: u32,
}

impl Excess {
    pub(crate) fn days(&self) -> f64 {
        self.to.since_s(self.from) / DAY_S
    }
}

/// The moves of all strings of a harp against their neighbours.
pub(crate) struct Moves {
    by_string: BTreeMap<StringName, Vec<Excess>>,
    /// Whether each string is a wire.
    wires: BTreeMap<StringName, bool>,
    /// How far wires and others stray.
    kinds: BTreeMap<bool, f64>,
    neighbours: BTreeMap<StringName, Vec<StringName>>,
}

#[derive(Clone, Copy)]
struct Moved {
    from: Moment,
    to: Moment,
    cents: f64,
    u95: f64,
    age: Option<f64>,
    string: u32,
}

impl Moves {
    pub(crate) fn of(harp: &Harp, known: &HarpKnown, now: Moment) -> Moves {
        let moved: BTreeMap<StringName, Vec<Moved>> = known
            .strings
            .iter()
            .map(|(name, string)| (*name, moved(string, now)))
            .collect();
        let mut moves = Moves {
            by_string: BTreeMap::new(),
            wires: harp.strings().iter().map(|s| (s.name, s.wire)).collect(),
            kinds: BTreeMap::new(),
            neighbours: BTreeMap::new(),
        };
        for string in harp.strings() {
            let near = neighbours(harp, string.name);
            let theirs: Vec<&[Moved]> = near
                .iter()
                .filter_map(|name| moved.get(name).map(Vec::as_slice))
                .collect();
            let own = moved.get(&string.name).into_iter().flatten();
            let excess = own.filter_map(|one| excess(one, &theirs)).collect();
            moves.by_string.insert(string.name, excess);
            moves.neighbours.insert(string.name, near);
        }
        let kinds = [false, true].map(|wire| Some((wire, moves.strays(wire)?)));
        moves.kinds = kinds.into_iter().flatten().collect();
        moves
    }

    /// The moves of one string, in order.
    pub(crate) fn of_string(&self, string: StringName) -> &[Excess] {
        self.by_string.get(&string).map_or(&[], Vec::as_slice)
    }

    /// The nearest strings of the same kind.
    pub(crate) fn neighbours(&self, string: StringName) -> &[StringName] {
        self.neighbours.get(&string).map_or(&[], Vec::as_slice)
    }

    /// How far settled strings of the same kind, wires or others, stray from their neighbours from one time to the next:
    /// standard deviation, cents; nought where nothing is known of them.
    pub(crate) fn of_kind(&self, string: StringName) -> f64 {
        let kind = self
            .wires
            .get(&string)
            .and_then(|wire| self.kinds.get(wire));
        kind.copied().unwrap_or(0.0)
    }

    fn strays(&self, wire: bool) -> Option<f64> {
        let alike = self
            .by_string
            .iter()
            .filter(|(name, _)| self.wires.get(name) == Some(&wire));
        let settled = |one: &&Excess| one.age.is_none_or(|days| days >= SETTLED);
        let cents = alike.flat_map(|(_, all)| all.iter().filter(settled).map(|one| one.cents));
        Spread::of(cents).map(|spread| spread.sd)
    }
}

fn neighbours(harp: &Harp, name: StringName) -> Vec<StringName> {
    let Some((at, own)) = harp
        .strings()
        .iter()
        .enumerate()
        .find(|(_, string)| string.name == name)
    else {
        return Vec::new();
    };
    let strings = harp.strings().iter().enumerate();
    let mut others: Vec<(usize, StringName)> = strings
        .filter(|(other, string)| *other != at && string.wire == own.wire)
        .map(|(other, string)| (other.abs_diff(at), string.name))
        .collect();
    others.sort();
    others.truncate(NEIGHBOURS);
    others.into_iter().map(|(_, name)| name).collect()
}

/// From each time that a string was left to the next that it was found.
fn moved(string: &StringKnown, now: Moment) -> Vec<Moved> {
    let mut moved = Vec::new();
    let mut left: Option<&Point> = None;
    let mut first: Option<&Point> = None;
    for point in &string.history {
        if first.is_none_or(|first| first.string != point.string) {
            first = Some(point);
        }
        let fitted = string
            .fitted
            .as_ref()
            .filter(|_| point.string == string.fittings);
        let since = match fitted {
            Some(fitted) if fitted.used => None,
            Some(fitted) => Some(fitted.when),
            // of those before only the first reading is known
            None => first
                .filter(|first| first.string > 0)
                .map(|first| first.when),
        };
        let from = left.filter(|l| l.string == point.string && l.raised == point.raised);
        if let (Some(from), true) = (from, point.found) {
            let days = point.when.since_s(from.when) / DAY_S;
            let recent = now.since_s(point.when) / DAY_S <= PAST;
            if recent && (DAYS.0..=DAYS.1).contains(&days) {
                moved.push(Moved {
                    from: from.when,
                    to: point.when,
                    cents: pitch::cents(from.heard_hz, point.heard_hz),
                    u95: from.u95_cents.hypot(point.u95_cents),
                    age: since.map(|since| from.when.since_s(since) / DAY_S),
                    string: point.string,
                });
            }
        }
        if point.found || point.left {
            left = Some(point).filter(|point| point.left);
        }
    }
    moved
}

fn excess(own: &Moved, neighbours: &[&[Moved]]) -> Option<Excess> {
    let theirs = neighbours
        .iter()
        .filter_map(|all| at_the_same_time(own, all));
    let middle = Spread::of(theirs).filter(|middle| middle.count >= LEAST)?;
    let reading = own.u95 / 1.96;
    if !own.cents.is_finite() || !reading.is_finite() {
        return None;
    }
    Some(Excess {
        from: own.from,
        to: own.to,
        cents: own.cents - middle.middle,
        sd: reading.hypot(middle.error(0.3)),
        neighbours_cents: middle.middle,
        age: own.age,
        string: own.string,
    })
}

/// How far a settled neighbour moved over the same time.
fn at_the_same_time(own: &Moved, all: &[Moved]) -> Option<f64> {
    let begins = all.partition_point(|other| own.from.since_s(other.from) > SAME_TIME_S);
    let near = all.get(begins..)?.iter();
    let mut near = near.take_while(|other| other.from.since_s(own.from) <= SAME_TIME_S);
    let same = near.find(|other| other.to.since_s(own.to).abs() <= SAME_TIME_S)?;
    let settled = same.age.is_none_or(|days| days >= SETTLED);
    settled.then_some(same.cents)
}
