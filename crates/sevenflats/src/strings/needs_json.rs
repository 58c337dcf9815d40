//! The same for programs: a line for the harp, one for each string, each spare and each string to order.

use std::io::Write;

use ::diary::{Moment, Stands};
use harp::StringName;
use keep::{Age, By, Covered, DueString, Interval, Mark, Settling, Shelf, State, Suspected};
use pitch::Tongue;
use serde::Serialize;

use super::needs::Needs;
use crate::names;
use harp::Naming;

#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "snake_case")]
enum Line<'a> {
    Harp {
        harp: &'a str,
        rounds: usize,
        mixed: Vec<MixedLine>,
        visits: Vec<VisitLine<'a>>,
    },
    String(Box<StringLine<'a>>),
    Spare {
        harp: &'a str,
        string: Option<String>,
        place: Option<String>,
        material: Option<&'static str>,
        gauge_mm: Option<f64>,
        bought: Option<String>,
        count: u32,
        keeps: &'static str,
    },
    Order {
        harp: &'a str,
        string: String,
        covers: Vec<String>,
    },
}

#[derive(Serialize)]
struct MixedLine {
    octave: i32,
    youngest: String,
    youngest_days: f64,
    oldest: String,
    oldest_days: f64,
}

#[derive(Serialize)]
struct VisitLine<'a> {
    at: String,
    who: &'a str,
    done: &'a str,
    note: &'a str,
}

#[derive(Serialize)]
struct StringLine<'a> {
    harp: &'a str,
    string: String,
    harp_number: String,
    stands: &'static str,
    age_days: Option<f64>,
    age_is_least: bool,
    due: &'static str,
    interval: IntervalLine,
    breaks: Vec<String>,
    breaks_again: bool,
    moved: Option<MoveLine>,
    settling: SettlingLine,
    questions: Vec<QuestionLine>,
    cover: CoverLine,
    tension_n: Option<f64>,
}

#[derive(Serialize)]
struct IntervalLine {
    from_years: f64,
    to_years: f64,
    worth: &'static str,
}

#[derive(Serialize)]
struct MoveLine {
    from: String,
    to: String,
    cents: f64,
    u95_cents: f64,
}

#[derive(Serialize, Default)]
struct SettlingLine {
    is: &'static str,
    moves: Option<usize>,
    cents_per_day: Option<f64>,
    u95_cents: Option<f64>,
    after_days: Option<f64>,
}

#[derive(Serialize)]
struct QuestionLine {
    asks: &'static str,
    since: String,
    words: String,
}

#[derive(Serialize)]
struct CoverLine {
    by: &'static str,
    made_for: Option<String>,
    same_colour: Option<bool>,
    keeps: Option<&'static str>,
}

pub(super) fn write(needs: &Needs<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    let harp = needs.known.harp.as_str();
    line(&of_harp(needs), out)?;
    for (due, covered) in needs.due.iter().zip(&needs.cover) {
        line(&Line::String(Box::new(of_string(needs, due, covered))), out)?;
    }
    for (lot, spare) in needs.lots.iter().zip(&needs.spares) {
        let spare_line = Line::Spare {
            harp,
            string: lot.string.map(|s| s.to_string()),
            place: spare.place(&needs.harp).map(|s| s.to_string()),
            material: lot.material.map(|m| m.as_str()),
            gauge_mm: lot.gauge_mm,
            bought: lot.bought.map(|when| when.to_string()),
            count: lot.count,
            keeps: keeps(spare.shelf(&needs.harp, needs.now)),
        };
        line(&spare_line, out)?;
    }
    for order in &needs.orders {
        let order = Line::Order {
            harp,
            string: order.string.to_string(),
            covers: order.covers.iter().map(StringName::to_string).collect(),
        };
        line(&order, out)?;
    }
    Ok(())
}

fn line(line: &Line<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    serde_json::to_writer(&mut *out, line)?;
    writeln!(out)
}

fn of_harp<'a>(needs: &'a Needs<'_>) -> Line<'a> {
    let mixed = needs.mixed.iter().map(|one| MixedLine {
        octave: one.octave,
        youngest: one.youngest.0.to_string(),
        youngest_days: one.youngest.1,
        oldest: one.oldest.0.to_string(),
        oldest_days: one.oldest.1,
    });
    let visits = needs.known.visits.iter().map(|visit| VisitLine {
        at: visit.when.to_string(),
        who: &visit.who,
        done: &visit.done,
        note: &visit.note,
    });
    Line::Harp {
        harp: &needs.known.harp,
        rounds: needs.known.rounds,
        mixed: mixed.collect(),
        visits: visits.collect(),
    }
}

fn of_string<'a>(needs: &'a Needs<'_>, due: &DueString, covered: &Covered) -> StringLine<'a> {
    let name = due.string;
    let known = needs.string(name);
    let moved = known.and_then(|known| known.moves().last().copied());
    let questions = needs.suspected.iter().filter(|one| one.string == name);
    StringLine {
        harp: &needs.known.harp,
        string: name.to_string(),
        harp_number: name.harp_number(),
        stands: stands(known.map(|known| known.stands).unwrap_or_default()),
        age_days: due.age.days(),
        age_is_least: matches!(due.age, Age::AtLeast(_)),
        due: state(due.state),
        interval: interval(due.interval),
        breaks: (known.iter())
            .flat_map(|known| known.breaks.iter().map(Moment::to_string))
            .collect(),
        breaks_again: due.breaks.again_and_again,
        moved: moved.map(|moved| MoveLine {
            from: moved.from.to_string(),
            to: moved.to.to_string(),
            cents: moved.cents,
            u95_cents: moved.u95_cents,
        }),
        settling: settling(needs.settling.get(&name)),
        questions: questions
            .map(|one| QuestionLine {
                asks: asks(one.what),
                since: one.since.to_string(),
                words: names::said(Naming::default(), |names| {
                    keep::question(one, names, Tongue::English)
                }),
            })
            .collect(),
        cover: cover(covered),
        tension_n: needs.tension_n.get(&name).copied(),
    }
}

fn interval(interval: Interval) -> IntervalLine {
    IntervalLine {
        from_years: interval.from_years,
        to_years: interval.to_years,
        worth: match interval.mark {
            Mark::Guides => "guides",
            Mark::CommonPractice => "common_practice",
            Mark::OneGuess => "one_guess",
            Mark::FromMemory => "from_memory",
            Mark::Proposal => "proposal",
            Mark::Hers => "hers",
        },
    }
}

fn settling(settling: Option<&Settling>) -> SettlingLine {
    let nothing = SettlingLine::default();
    match settling.copied().unwrap_or(Settling::NotNew) {
        Settling::NotNew => SettlingLine {
            is: "not_new",
            ..nothing
        },
        Settling::TooFew { moves } => SettlingLine {
            is: "too_few",
            moves: Some(moves),
            ..nothing
        },
        Settling::Moving {
            cents_per_day,
            u95_cents,
        } => SettlingLine {
            is: "moving",
            cents_per_day: Some(cents_per_day),
            u95_cents: Some(u95_cents),
            ..nothing
        },
        Settling::Settled { after_days } => SettlingLine {
            is: "settled",
            after_days: Some(after_days),
            ..nothing
        },
    }
}

fn cover(covered: &Covered) -> CoverLine {
    let (by, made_for, same_colour) = match covered.by {
        By::Own(_) => ("own", None, None),
        By::Thinner {
            made_for,
            same_colour,
            ..
        } => ("thinner", Some(made_for.to_string()), Some(same_colour)),
        By::Nothing => ("nothing", None, None),
    };
    CoverLine {
        by,
        made_for,
        same_colour,
        keeps: (covered.by != By::Nothing).then(|| keeps(covered.shelf)),
    }
}

fn stands(stands: Stands) -> &'static str {
    match stands {
        Stands::On => "on",
        Stands::Broken => "broken",
        Stands::Off => "off",
    }
}

fn state(state: State) -> &'static str {
    match state {
        State::NotYet => "not_yet",
        State::NotKnown => "not_known",
        State::MayBe => "may_be",
        State::Due => "due",
        State::Missing => "missing",
    }
}

fn keeps(shelf: Shelf) -> &'static str {
    match shelf {
        Shelf::Best => "best",
        Shelf::NotKnown => "not_known",
        Shelf::Older => "older",
        Shelf::PassOn => "pass_on",
        Shelf::Retire => "retire",
    }
}

fn asks(what: Suspected) -> &'static str {
    match what {
        Suspected::PinSlips { .. } => "pin_slips",
        Suspected::Wide { .. } => "wide",
        Suspected::Strays { .. } => "strays",
        Suspected::RingsShorter { .. } => "rings_shorter",
        Suspected::Softer { .. } => "softer",
        Suspected::StiffnessChanged { .. } => "stiffness_changed",
        Suspected::OtherString { .. } => "other_string",
        Suspected::OtherGauge { .. } => "other_gauge",
        Suspected::SettlesSlower { .. } => "settles_slower",
    }
}
