//! What a round says in few words, and tables of what must and must not be said while a player does something.

use harp::StringName;
use pluck::player::Visit;
use tuning::Direction;
use tuning::round::{Say, Warning};

use super::played::{DOUBTFUL, Played};

/// No question and no stop.
pub(crate) const NO_ALARM: [&str; 2] = ["question: *", "stop: *"];
/// No direction and nothing in tune.
pub(crate) const NO_VERDICT: [&str; 3] = ["up *", "down *", "in tune *"];
/// Seconds by which a pluck may be heard early, or its truth be rounded.
const EARLY_S: f64 = 0.05;

/// From and to, in seconds of the sound; the first belongs to it.
pub(crate) type Span = (f64, f64);

/// A row of a table: when, what the player does, what must be said, in this order, and what must not.
///
/// Words are those of [`words`]; `up *` is any that begins so; `in tune F4 / near F4` is either; `not D4` is a verdict or
/// a movement of any other string.
pub(crate) struct Row {
    when: Span,
    does: String,
    must: Vec<String>,
    never: Vec<String>,
}

/// A row of a table.
pub(crate) fn row(when: Span, does: &str, must: &[&str], never: &[&str]) -> Row {
    let owned = |words: &[&str]| words.iter().map(|w| (*w).to_owned()).collect();
    Row {
        when,
        does: does.to_owned(),
        must: owned(must),
        never: owned(never),
    }
}

/// What must be said in an ordinary visit: which way, if its first pluck is surely off, and in tune, if its last surely is.
pub(crate) fn visited(played: &Played, visit: &Visit) -> Row {
    let name: StringName = visit.string.parse().unwrap();
    let tolerance = played.plan.tolerance.of(name);
    let offs = played.offs(visit);
    let (found, left) = (offs[0], offs[offs.len() - 1]);
    let mut must = Vec::new();
    if found.abs() > tolerance + DOUBTFUL {
        must.push(format!(
            "{} {name}",
            if found < 0.0 { "up" } else { "down" }
        ));
    }
    if played.surely_left_in_tune(visit) {
        must.push(format!("in tune {name} / near {name}"));
    }
    let must: Vec<&str> = must.iter().map(String::as_str).collect();
    let does = format!("tunes {name} from {found:+.1} to {left:+.1}");
    row((visit.from_s, visit.until_s), &does, &must, &NO_ALARM)
}

/// A row for each visit.
pub(crate) fn every_visit(played: &Played) -> Vec<Row> {
    let visits = played.script.visits.iter();
    visits.map(|visit| visited(played, visit)).collect()
}

/// Holds what was said to every row and prints the table; besides, nothing that was played may be told the wrong way,
/// and nothing heard may be lost.
pub(crate) fn check(played: &Played, rows: &[Row]) {
    assert!(!rows.is_empty() && !played.truth.is_empty());
    let mut wrong = Vec::new();
    for row in rows {
        let said = once_each_movement(said(played, row.when));
        let words: Vec<&str> = said.iter().map(|s| s.words.as_str()).collect();
        let mut why = missing(&row.must, &words);
        why.extend(row.never.iter().flat_map(|never| {
            let against = said.iter().filter(|s| fits(never, &s.words));
            against.map(|s| format!("'{}' at {:.2} s", s.words, s.at_s))
        }));
        let (from_s, to_s) = row.when;
        let line = format!(
            "{from_s:7.2}–{to_s:.2} s | {} | must: {} | never: {}",
            row.does,
            row.must.join(", "),
            row.never.join(", ")
        );
        println!("{line}");
        if !why.is_empty() {
            let (why, heard) = (why.join("; "), listed(&said));
            wrong.push(format!("{line}\n    WRONG: {why}\n    said: {heard}"));
        }
    }
    wrong.extend(
        played
            .wrong_ways()
            .into_iter()
            .map(|w| format!("WRONG WAY {w}")),
    );
    wrong.extend(played.lost().into_iter().map(|w| format!("LOST {w}")));
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The first of the words that must be said in this order and was not.
fn missing(must: &[String], words: &[&str]) -> Vec<String> {
    let mut rest = words.iter();
    let unsaid = must.iter().find(|m| !rest.any(|w| fits(m, w)));
    unsaid
        .map(|m| format!("'{m}' was not said"))
        .into_iter()
        .collect()
}

fn fits(pattern: &str, words: &str) -> bool {
    pattern.split(" / ").any(|one| {
        if let Some(name) = one.strip_prefix("not ").filter(|rest| *rest != "read") {
            let verdict = ["up ", "down ", "in tune ", "near ", "moving "];
            return verdict.iter().any(|v| words.starts_with(v)) && !words.ends_with(name);
        }
        match one.strip_suffix('*') {
            Some(start) => words.starts_with(start),
            None => one == words,
        }
    })
}

/// One thing that was said: of a pluck the second is its onset.
pub(crate) struct Said {
    at_s: f64,
    words: String,
    off_cents: Option<f64>,
}

/// What was said of that which happened within a span.
fn said(played: &Played, (from_s, to_s): Span) -> Vec<Said> {
    let mut said = Vec::new();
    for at in &played.all {
        let at_s = at.happened.event.at_s();
        if at_s >= from_s - EARLY_S && at_s < to_s - EARLY_S {
            said.extend(at.happened.says.iter().filter_map(|say| {
                let off_cents = match say {
                    Say::Turn(turn) => Some(turn.off_cents),
                    Say::InTune { off_cents, .. } | Say::Near { off_cents, .. } => Some(*off_cents),
                    _ => None,
                };
                let words = words(say)?;
                Some(Said {
                    at_s,
                    words,
                    off_cents,
                })
            }));
        }
    }
    said
}

/// The second at which such words were first said; the end of the sound where they never were.
pub(crate) fn first_said(played: &Played, pattern: &str) -> f64 {
    let all = said(played, (0.0, f64::INFINITY));
    let first = all.iter().find(|s| fits(pattern, &s.words));
    first.map_or(played.script.round.seconds, |s| s.at_s)
}

/// A movement comes in many steps; the first of them stands for all.
fn once_each_movement(mut said: Vec<Said>) -> Vec<Said> {
    said.dedup_by(|next, one| next.words == one.words && one.words.starts_with("moving"));
    said
}

/// All that was said, for a failed row.
fn listed(said: &[Said]) -> String {
    let line = |one: &Said| {
        let off = one
            .off_cents
            .map_or(String::new(), |off| format!(" ({off:+.1})"));
        format!("{:.2} {}{off}", one.at_s, one.words)
    };
    said.iter().map(line).collect::<Vec<_>>().join(", ")
}

/// What is said, shortly; none for words that no table asks about.
fn words(say: &Say) -> Option<String> {
    let words = match say {
        Say::Turn(turn) => match turn.way {
            Direction::Up => format!("up {}", turn.string),
            Direction::Down => format!("down {}", turn.string),
            Direction::There => format!("there {}", turn.string),
        },
        Say::InTune { string, .. } => format!("in tune {string}"),
        Say::Near { string, .. } => format!("near {string}"),
        Say::PluckStill(string) => format!("pluck still {string}"),
        Say::Moving { string, .. } => format!("moving {string}"),
        Say::Enough(string) => format!("enough {string}"),
        Say::Which(strings) => {
            let names: Vec<String> = strings.iter().map(ToString::to_string).collect();
            format!("which {}", names.join(" "))
        }
        Say::NotRead { .. } => "not read".to_owned(),
        Say::Warning(warning) => doubt(warning),
        Say::Next { string, why } => format!("next {string} {why:?}"),
        Say::ReachedForNow { string, .. } => format!("for now {string}"),
        Say::Holds(string) => format!("holds {string}"),
        Say::Again { .. } => "again".to_owned(),
        Say::Pinned(string) => format!("pinned {string}"),
        Say::Paused => "paused".to_owned(),
        Say::Resumed => "resumed".to_owned(),
        Say::AllHeard => "all heard".to_owned(),
        _ => return None,
    };
    Some(words)
}

fn doubt(warning: &Warning) -> String {
    match warning {
        Warning::PedalUp { letter, .. } => format!("question: pedal {letter}"),
        Warning::LeverOff { string } => format!("question: lever {string}"),
        Warning::FoundHigh { string, .. } => format!("question: high {string}"),
        Warning::KeyElsewhere { string, .. } => format!("question: key {string}"),
        Warning::OctaveHigh { expected, .. } => format!("question: octave {expected}"),
        Warning::Reference { a4_hz, .. } => format!("question: A4 {a4_hz}"),
        Warning::AnotherMoves {
            expected, moving, ..
        } => format!("stop: {moving} moves, not {expected}"),
        Warning::OverPull { string, .. } => format!("stop: too far up {string}"),
    }
}
