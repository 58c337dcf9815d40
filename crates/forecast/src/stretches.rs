//! What strings did while nobody is known to have touched their pins: from left to found, those of the same round and the
//! same evening together.

use diary::{Air, HarpKnown, Moment, Point, StringKnown};
use harp::StringName;

use crate::air_at::air_at;
use crate::{DAY_S, growth};

/// Minutes between two readings of one round.
const ROUND_S: f64 = 2700.0;
/// The last stretches that are asked.
const MOST: usize = 500;
/// Age is told from a quarter of a day on.
const YOUNG_DAYS: f64 = 0.25;
/// What is older has settled.
const SETTLED_DAYS: f64 = 120.0;

/// One string over one stretch.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Moved {
    /// Its place among the harp's strings.
    pub(crate) string: usize,
    pub(crate) from: Moment,
    pub(crate) to: Moment,
    /// How far it went, cents.
    pub(crate) cents: f64,
    /// The variance of its readings, cents².
    pub(crate) read: f64,
    /// How far it had been turned up before it was left, cents.
    pub(crate) turned: f64,
    /// How many e-folds of its age passed; nought for a string that has settled.
    pub(crate) aged: f64,
    /// How its wandering grew.
    pub(crate) growth: f64,
    /// Which stretch.
    pub(crate) stretch: usize,
}

/// A stretch.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stretch {
    pub(crate) days: f64,
    /// How the air changed, °C and per cent, where that is known.
    pub(crate) air: Option<[f64; 2]>,
}

/// All stretches in order, and what each string did in them.
#[derive(Debug, Default)]
pub(crate) struct Stretches {
    pub(crate) all: Vec<Stretch>,
    pub(crate) moved: Vec<Moved>,
}

impl Stretches {
    pub(crate) fn of(known: &HarpKnown, air: &[(Moment, Air)], names: &[StringName]) -> Stretches {
        let mut moved: Vec<Moved> = Vec::new();
        for (at, name) in names.iter().enumerate() {
            if let Some(string) = known.strings.get(name) {
                moved.extend(of_string(at, string));
            }
        }
        moved.sort_by_key(|one| (one.to, one.from));
        let mut together: Vec<Vec<Moved>> = Vec::new();
        for round in moved.chunk_by(|a, b| b.to.since_s(a.to) < ROUND_S) {
            let mut round = round.to_vec();
            round.sort_by_key(|one| one.from);
            let parts = round.chunk_by(|a, b| b.from.since_s(a.from) < ROUND_S);
            together.extend(parts.map(<[Moved]>::to_vec));
        }
        let skip = together.len().saturating_sub(MOST);
        let mut stretches = Stretches::default();
        for mut one in together.into_iter().skip(skip) {
            let stretch = stretches.all.len();
            let Some(first) = one.first() else { continue };
            let change =
                air_at(air, &known.harp, first.from).change(air_at(air, &known.harp, first.to));
            stretches.all.push(Stretch {
                days: first.to.since_s(first.from) / DAY_S,
                air: change,
            });
            one.iter_mut().for_each(|moved| moved.stretch = stretch);
            stretches.moved.extend(one);
        }
        stretches
    }
}

fn of_string(at: usize, string: &StringKnown) -> Vec<Moved> {
    let mut all = Vec::new();
    let mut left: Option<(&Point, f64)> = None;
    let mut found: Option<&Point> = None;
    let recent = string.history.len().saturating_sub(2 * MOST);
    for point in string.history.iter().skip(recent) {
        let same = |other: &Point| other.string == point.string && other.raised == point.raised;
        if let (true, Some((from, turned))) = (point.found, left.filter(|(l, _)| same(l))) {
            let days = point.when.since_s(from.when) / DAY_S;
            all.push(Moved {
                string: at,
                from: from.when,
                to: point.when,
                cents: pitch::cents(from.heard_hz, point.heard_hz),
                read: variance(from) + variance(point),
                turned,
                aged: aged(string, from, point.when),
                growth: growth(days),
                stretch: 0,
            });
        }
        if point.left {
            left = Some((point, turned(found.filter(|f| same(f)), point)));
        } else if point.found {
            left = None;
        }
        if point.found {
            found = Some(point);
        }
    }
    all.retain(|one| one.cents.abs() < 150.0 && one.read.is_finite());
    all
}

/// The variance of a reading, cents².
pub(crate) fn variance(point: &Point) -> f64 {
    (point.u95_cents / 1.96).powi(2)
}

/// How far a string had been turned up when it was left.
pub(crate) fn turned(found: Option<&Point>, left: &Point) -> f64 {
    let hour = |found: &&Point| left.when.since_s(found.when) < 3600.0;
    let found = found.filter(hour).filter(|_| !left.found);
    found.map_or(0.0, |found| pitch::cents(found.heard_hz, left.heard_hz))
}

/// How many e-folds of its age pass from a reading to a moment; nought for a string that has settled, or whose age nobody
/// knows.
pub(crate) fn aged(string: &StringKnown, from: &Point, to: Moment) -> f64 {
    let on = match &string.fitted {
        Some(fitted) if from.string == string.fittings => (!fitted.used).then_some(fitted.when),
        _ => first_reading(string, from.string),
    };
    let Some(on) = on else { return 0.0 };
    let age = |when: Moment| (when.since_s(on) / DAY_S).max(0.0);
    if age(from.when) > SETTLED_DAYS {
        return 0.0;
    }
    ((age(to) + YOUNG_DAYS) / (age(from.when) + YOUNG_DAYS)).ln()
}

/// When a string of this place was read first; none of the one that was on before anything was known.
fn first_reading(string: &StringKnown, which: u32) -> Option<Moment> {
    if which == 0 {
        return None;
    }
    // strings of a place follow each other
    let at = string.history.partition_point(|point| point.string < which);
    string.history.get(at).map(|first| first.when)
}
