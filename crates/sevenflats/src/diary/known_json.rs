//! What is known of each string, for programs.

use std::io::Write;

use ::diary::{
    Does, FaultKnown, Found, HarpKnown, Known, Moment, Move, Part, Point, Stands, StringKnown,
};
use harp::StringName;
use pitch::Alteration;
use serde::Serialize;

use super::arguments::ShowArguments;
use super::json::line;
use super::{air, page, place};

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;

/// A line for each harp, then one for each of its strings, from the bass; at the end the air.
pub(super) fn write(
    known: &Known,
    asked: &ShowArguments,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let now = Moment::of(&place::now());
    for harp in page::harps(known, asked) {
        line(&HarpLine::of(harp), out)?;
        for (name, string) in page::strings(harp, asked) {
            line(&StringLine::of(harp, *name, string, asked, now), out)?;
        }
    }
    air::write(known, asked, out)
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "harp")]
struct HarpLine<'a> {
    harp: &'a str,
    rounds: usize,
    a4_hz: Option<f64>,
    a4_at: Option<String>,
    pedals: Vec<FaultLine>,
}

impl<'a> HarpLine<'a> {
    fn of(harp: &'a HarpKnown) -> Self {
        Self {
            harp: &harp.harp,
            rounds: harp.rounds,
            a4_hz: harp.a4_hz.map(|(_, a4_hz)| a4_hz),
            a4_at: harp.a4_hz.map(|(at, _)| at.to_string()),
            pedals: harp.pedals.iter().map(FaultLine::of).collect(),
        }
    }
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "string")]
struct StringLine<'a> {
    harp: &'a str,
    string: String,
    harp_number: String,
    stands: &'static str,
    last: Option<PointLine>,
    in_tune_at: Option<String>,
    highest_hz: Option<f64>,
    fitted: Option<FittedLine<'a>>,
    age_days: Option<f64>,
    breaks: Vec<String>,
    moved: Option<MoveLine>,
    regulation: Option<CheckLine>,
    faults: Vec<FaultLine>,
    #[serde(skip_serializing_if = "Option::is_none")]
    history: Option<Vec<PointLine>>,
}

#[derive(Serialize)]
struct PointLine {
    at: String,
    heard_hz: f64,
    target_hz: f64,
    off_cents: f64,
    u95_cents: f64,
    raised: u8,
    found: bool,
    left: bool,
}

#[derive(Serialize)]
struct FittedLine<'a> {
    at: String,
    used: bool,
    material: Option<&'static str>,
    gauge_mm: Option<f64>,
    by: &'a str,
}

#[derive(Serialize)]
struct MoveLine {
    from: String,
    to: String,
    cents: f64,
    u95_cents: f64,
}

#[derive(Serialize)]
struct CheckLine {
    at: String,
    a4_hz: f64,
    found: &'static str,
    positions: Vec<PositionLine>,
    own_cents: Option<f64>,
}

#[derive(Serialize)]
struct PositionLine {
    position: &'static str,
    off_cents: f64,
    u95_cents: f64,
}

#[derive(Serialize)]
struct FaultLine {
    part: &'static str,
    string: Option<String>,
    letter: Option<String>,
    position: Option<&'static str>,
    does: &'static str,
    since: String,
    note: String,
}

impl<'a> StringLine<'a> {
    fn of(
        harp: &'a HarpKnown,
        name: StringName,
        known: &'a StringKnown,
        asked: &ShowArguments,
        now: Moment,
    ) -> Self {
        let history = asked.history.map(|most| known.thinned(most as usize));
        let points = |points: Vec<Point>| points.iter().map(PointLine::of).collect();
        Self {
            harp: &harp.harp,
            string: name.to_string(),
            harp_number: name.harp_number(),
            stands: match known.stands {
                Stands::On => "on",
                Stands::Broken => "broken",
                Stands::Off => "off",
            },
            last: known.last.as_ref().map(PointLine::of),
            in_tune_at: known.in_tune.map(|at| at.to_string()),
            highest_hz: known.highest_hz,
            fitted: known.fitted.as_ref().map(|fitted| FittedLine {
                at: fitted.when.to_string(),
                used: fitted.used,
                material: fitted.material.map(|material| material.as_str()),
                gauge_mm: fitted.gauge_mm,
                by: &fitted.by,
            }),
            age_days: known.age_s(now).map(|age_s| age_s / DAY_S),
            breaks: known.breaks.iter().map(Moment::to_string).collect(),
            moved: known.moves().last().map(MoveLine::of),
            regulation: known.regulation.as_ref().map(|check| CheckLine {
                at: check.when.to_string(),
                a4_hz: check.a4_hz,
                found: found(check.checked.found),
                positions: (check.checked.positions.iter())
                    .map(|read| PositionLine {
                        position: side(read.position),
                        off_cents: read.off_cents,
                        u95_cents: read.u95_cents,
                    })
                    .collect(),
                own_cents: check.checked.own_cents,
            }),
            faults: known.faults.iter().map(FaultLine::of).collect(),
            history: history.map(points),
        }
    }
}

impl PointLine {
    fn of(point: &Point) -> Self {
        Self {
            at: point.when.to_string(),
            heard_hz: point.heard_hz,
            target_hz: point.target_hz,
            off_cents: point.off_cents,
            u95_cents: point.u95_cents,
            raised: point.raised,
            found: point.found,
            left: point.left,
        }
    }
}

impl MoveLine {
    fn of(moved: &Move) -> Self {
        Self {
            from: moved.from.to_string(),
            to: moved.to.to_string(),
            cents: moved.cents,
            u95_cents: moved.u95_cents,
        }
    }
}

impl FaultLine {
    fn of(fault: &FaultKnown) -> Self {
        let (part, letter, position) = match &fault.part {
            Part::Disc { position, .. } => ("disc", None, Some(side(*position))),
            Part::Lever { .. } => ("lever", None, None),
            Part::Pedal { letter } => ("pedal", Some(letter.to_string()), None),
        };
        Self {
            part,
            string: fault.part.string().map(|string| string.to_string()),
            letter,
            position,
            does: does(fault.does),
            since: fault.since.to_string(),
            note: fault.note.clone(),
        }
    }
}

pub(super) fn side(alteration: Alteration) -> &'static str {
    match alteration {
        Alteration::Flat => "flat",
        Alteration::Natural => "natural",
        Alteration::Sharp => "sharp",
    }
}

pub(super) fn does(does: Does) -> &'static str {
    match does {
        Does::Fails => "fails",
        Does::Buzzes => "buzzes",
        Does::Slips => "slips",
        Does::Off => "off",
    }
}

fn found(found: Found) -> &'static str {
    match found {
        Found::Right => "right",
        Found::Disc => "disc",
        Found::Lever => "lever",
        Found::Pedal => "pedal",
        Found::OwnString => "string",
        Found::TooNew => "too_new",
        Found::NotSure => "not_sure",
    }
}
