//! What is known of each string, for people: a line for each.

use std::io::Write;

use ::diary::{
    FaultKnown, FittedKnown, Found, HarpKnown, Known, Moment, Part, Point, Stands, StringKnown,
};
use harp::{Naming, StringName};
use pitch::signed;

use super::air;
use super::arguments::ShowArguments;
use super::known_json::{does, side};

/// What stands where nothing is known.
const BLANK: &str = "–";

/// The harps that were asked for.
pub(super) fn harps<'a>(
    known: &'a Known,
    asked: &'a ShowArguments,
) -> impl Iterator<Item = &'a HarpKnown> {
    let named = asked.harp.as_ref();
    let harps = known.harps.iter();
    harps.filter(move |harp| named.is_none_or(|name| *name == harp.harp))
}

/// Its strings that were asked for, from the bass.
pub(super) fn strings<'a>(
    harp: &'a HarpKnown,
    asked: &'a ShowArguments,
) -> impl Iterator<Item = (&'a StringName, &'a StringKnown)> {
    let named = &asked.string;
    let strings = harp.strings.iter();
    strings.filter(move |(name, _)| named.is_empty() || named.contains(name))
}

/// A table for each harp.
pub(super) fn write(
    known: &Known,
    asked: &ShowArguments,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let naming = asked.shown.names;
    for harp in harps(known, asked) {
        let rounds = match harp.rounds {
            1 => "1 round".to_owned(),
            rounds => format!("{rounds} rounds"),
        };
        let a4 = harp.a4_hz.map_or_else(String::new, |(when, a4_hz)| {
            format!(", A at {a4_hz} Hz on {}", day(when))
        });
        writeln!(out, "{}: {rounds}{a4}", harp.harp)?;
        for pedal in &harp.pedals {
            writeln!(out, "{}", fault(pedal))?;
        }
        writeln!(
            out,
            "string  last heard, cents       on          in tune     moved since left  on the harp since         broke  to look at"
        )?;
        for (name, string) in strings(harp, asked) {
            row(naming, *name, string, out)?;
            if let Some(most) = asked.history {
                history(string, most as usize, out)?;
            }
        }
        writeln!(out)?;
    }
    air::tell(known, asked, out)?;
    match (known.harps.is_empty(), known.not_understood.len()) {
        (true, _) => writeln!(out, "No harp is in this diary yet."),
        (_, 0) => writeln!(out, "{BLANK}: never written down. Days are those of UTC."),
        (_, count) => writeln!(
            out,
            "{BLANK}: never written down. {count} records are of a newer version of this program and are not shown."
        ),
    }
}

fn row(
    naming: Naming,
    name: StringName,
    string: &StringKnown,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let last = string.last.as_ref();
    let heard = last.map_or_else(|| BLANK.to_owned(), off);
    let when = last.map_or_else(|| BLANK.to_owned(), |point| day(point.when));
    let in_tune = string.in_tune.map_or_else(|| BLANK.to_owned(), day);
    let moved = string.moves().last().map_or_else(
        || BLANK.to_owned(),
        |moved| format!("{} ± {:.1}", signed(moved.cents), moved.u95_cents),
    );
    let since = string
        .fitted
        .as_ref()
        .map_or_else(|| BLANK.to_owned(), since);
    let text = format!(
        "{:<6}  {heard:<22}  {when:<10}  {in_tune:<10}  {moved:<16}  {since:<24}  {:<5}  {}",
        naming.string(name),
        match string.breaks.len() {
            0 => BLANK.to_owned(),
            times => times.to_string(),
        },
        to_look_at(string)
    );
    writeln!(out, "{}", text.trim_end())
}

/// In words which way it stood: `4.2 ± 0.3 down`.
fn off(point: &Point) -> String {
    let cents = format!("{:.1}", point.off_cents.abs());
    let way = match (cents.as_str(), point.off_cents > 0.0) {
        ("0.0", _) => "",
        (_, true) => " too high",
        (_, false) => " too low",
    };
    format!("{cents} ± {:.1}{way}", point.u95_cents)
}

fn since(fitted: &FittedKnown) -> String {
    let mut words = vec![day(fitted.when)];
    words.extend(fitted.material.map(|material| material.to_string()));
    words.extend(fitted.gauge_mm.map(|gauge_mm| format!("{gauge_mm} mm")));
    if fitted.used {
        words.push("used".to_owned());
    }
    words.join(" ")
}

fn to_look_at(string: &StringKnown) -> String {
    let mut words: Vec<String> = Vec::new();
    match string.stands {
        Stands::On => {}
        Stands::Broken => words.push("broken".to_owned()),
        Stands::Off => words.push("taken off".to_owned()),
    }
    words.extend(string.faults.iter().map(fault));
    if let Some(check) = &string.regulation {
        let found = match check.checked.found {
            Found::Right | Found::TooNew | Found::NotSure => None,
            Found::Disc => Some("a disc is off"),
            Found::Lever => Some("its lever is off"),
            Found::Pedal => Some("its whole letter is off"),
            Found::OwnString => Some("the string does not come back"),
        };
        words.extend(found.map(|found| format!("{found} (checked {})", day(check.when))));
    }
    words.join("; ")
}

fn fault(fault: &FaultKnown) -> String {
    let part = match &fault.part {
        Part::Disc { position, .. } => format!("the disc for {}", side(*position)),
        Part::Lever { .. } => "its lever".to_owned(),
        Part::Pedal { letter } => format!("the {letter} pedal"),
    };
    let does = match does(fault.does) {
        "off" => "is off",
        other => other,
    };
    format!("{part} {does} (since {})", day(fault.since))
}

fn history(string: &StringKnown, most: usize, out: &mut dyn Write) -> std::io::Result<()> {
    for point in string.thinned(most) {
        let how = match (point.found, point.left) {
            (true, true) => "found and left",
            (true, false) => "found",
            (false, true) => "left",
            (false, false) => "",
        };
        let text = format!("        {}  {:<22}  {how}", point.when, off(&point));
        writeln!(out, "{}", text.trim_end())?;
    }
    Ok(())
}

fn day(when: Moment) -> String {
    when.to_string().chars().take(10).collect()
}
