//! One string's past, and the whole harp's, as figures to be drawn.

use diary::{Moment, Point, StringKnown};
use harp::StringName;
use keep::Month;
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::ask::Asked;

/// Most readings of a string that are drawn.
const MOST: usize = 240;
/// Most readings of the air.
const MOST_AIR: usize = 240;

/// A reading.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PointShown {
    /// When, RFC 3339, UTC.
    pub at: String,
    /// Off its target, cents; up is above nought.
    pub off_cents: f64,
    /// Half of the 95 % interval, cents.
    pub u95_cents: f64,
    /// Whether it was found so when a round began.
    pub found: bool,
    /// Whether a round left it so.
    pub left: bool,
}

/// The air.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct AirShown {
    /// When.
    pub at: String,
    /// Degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Relative humidity, per cent.
    pub humidity_percent: Option<f64>,
}

/// One string's past.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PlotView {
    /// Its readings, thinned: the first and the last, and of each stretch the lowest and the highest.
    pub points: Vec<PointShown>,
    /// How many there are in all.
    pub of: usize,
    /// When strings broke here.
    pub breaks: Vec<String>,
    /// When strings were put on here, as far as it is known.
    pub fitted: Vec<String>,
    /// The air over the same time, thinned.
    pub air: Vec<AirShown>,
}

/// The moves of a month.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct MonthShown {
    /// The month, `2026-11`.
    pub month: String,
    /// The harp's number of the octave; none: the whole harp.
    pub octave: Option<i32>,
    /// The middle, cents; up is above nought.
    pub median_cents: f64,
    /// The lower quartile.
    pub lower_cents: f64,
    /// The upper quartile.
    pub upper_cents: f64,
    /// How many moves.
    pub moves: usize,
}

impl From<Month> for MonthShown {
    fn from(month: Month) -> Self {
        MonthShown {
            month: month.month,
            octave: month.octave,
            median_cents: month.median_cents,
            lower_cents: month.lower_cents,
            upper_cents: month.upper_cents,
            moves: month.moves,
        }
    }
}

impl PlotView {
    pub(super) fn of(asked: &Asked<'_>, string: StringName) -> PlotView {
        let nothing = StringKnown::default();
        let own = asked.own.strings.get(&string).unwrap_or(&nothing);
        let points = own.thinned(MOST).into_iter().filter(is_number);
        PlotView {
            of: own.history.len(),
            points: points.map(|point| PointShown::of(&point)).collect(),
            breaks: own.breaks.iter().map(Moment::to_string).collect(),
            fitted: fitted(own).iter().map(Moment::to_string).collect(),
            air: air(asked, own),
        }
    }
}

fn is_number(point: &Point) -> bool {
    point.off_cents.is_finite() && point.u95_cents.is_finite()
}

impl PointShown {
    fn of(point: &Point) -> PointShown {
        PointShown {
            at: point.when.to_string(),
            off_cents: point.off_cents,
            u95_cents: point.u95_cents,
            found: point.found,
            left: point.left,
        }
    }
}

/// When the string that is on was put on; of those before only their first readings are known.
fn fitted(own: &StringKnown) -> Vec<Moment> {
    let pairs = own.history.windows(2);
    let firsts = pairs.filter_map(|pair| match pair {
        [one, other] if one.string < other.string && other.string < own.fittings => {
            Some(other.when)
        }
        _ => None,
    });
    let last = own.fitted.as_ref().map(|fitted| fitted.when);
    firsts.chain(last).collect()
}

/// From the string's first reading on, every so-manieth.
fn air(asked: &Asked<'_>, own: &StringKnown) -> Vec<AirShown> {
    let Some(first) = own.history.first() else {
        return Vec::new();
    };
    let here = asked.known.air.iter().filter(|(when, air)| {
        let of_harp = air.harp.as_ref().is_none_or(|harp| *harp == asked.own.harp);
        of_harp && *when >= first.when
    });
    let here: Vec<_> = here.collect();
    let step = here.len().div_ceil(MOST_AIR).max(1);
    let shown = here.into_iter().step_by(step).map(|(when, air)| AirShown {
        at: when.to_string(),
        temperature_c: air.temperature_c.filter(|c| c.is_finite()),
        humidity_percent: air.humidity_percent.filter(|p| p.is_finite()),
    });
    shown.collect()
}
