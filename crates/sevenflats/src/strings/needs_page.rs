//! The same for people: a table, then what is asked, what lies in the drawer, and what to order.

use std::io::Write;

use harp::Naming;
use keep::{Covered, DueString, Settling};
use pitch::{Tongue, signed};
use tuning::round::Names;

use super::needs::Needs;
use crate::names::said;

/// Nothing is known.
const BLANK: &str = "–";
const TONGUE: Tongue = Tongue::English;

pub(super) fn write(needs: &Needs<'_>, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    said(naming, |names| whole(needs, names, out))
}

fn whole(needs: &Needs<'_>, names: &Names<'_>, out: &mut dyn Write) -> std::io::Result<()> {
    writeln!(out, "{}", needs.known.harp)?;
    writeln!(
        out,
        "string  broke  moved, cents      pull N  if it breaks; its age"
    )?;
    for (due, covered) in needs.due.iter().zip(&needs.cover) {
        row(needs, due, covered, names, out)?;
    }
    for mixed in &needs.mixed {
        writeln!(out, "{}", keep::mixed_words(mixed, names, TONGUE))?;
    }
    let questions = needs.suspected.iter();
    let questions: Vec<String> = questions
        .map(|one| keep::question(one, names, TONGUE))
        .collect();
    list("\nQuestions", &questions, out)?;
    if !questions.is_empty() {
        writeln!(out, "  {}", keep::limits(TONGUE))?;
    }
    list("\nIn the drawer", &drawer(needs, names), out)?;
    let orders = needs.orders.iter().map(|order| {
        let covers: Vec<String> = order.covers.iter().map(|s| (names.string)(*s)).collect();
        format!(
            "{}: covers {}",
            (names.string)(order.string),
            covers.join(", ")
        )
    });
    list("\nTo order", &orders.collect::<Vec<_>>(), out)?;
    let visits = needs.known.visits.iter().rev().map(|visit| {
        let day: String = visit.when.to_string().chars().take(10).collect();
        format!("{day} {} {}", visit.who, visit.done)
    });
    list("\nThe technician came", &visits.collect::<Vec<_>>(), out)?;
    let last = needs.known.visits.last().map(|visit| visit.when);
    let findings = keep::findings(needs.known, last);
    let findings = findings.iter().map(|one| keep::finding(one, names, TONGUE));
    list(
        "\nWhat checks of the mechanism found",
        &findings.collect::<Vec<_>>(),
        out,
    )?;
    writeln!(out)
}

fn row(
    needs: &Needs<'_>,
    due: &DueString,
    covered: &Covered,
    names: &Names<'_>,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let known = needs.string(due.string);
    let moved = known.and_then(|known| known.moves().last().copied());
    let moved = moved.map_or(BLANK.to_owned(), |moved| {
        format!("{} ± {:.1}", signed(moved.cents), moved.u95_cents)
    });
    let pull = needs.tension_n.get(&due.string);
    let pull = pull.map_or(BLANK.to_owned(), |pull| format!("{pull:.0}"));
    let broke = match due.breaks.count {
        0 => BLANK.to_owned(),
        count => count.to_string(),
    };
    let settling = match needs.settling.get(&due.string) {
        Some(settling @ (Settling::Moving { .. } | Settling::TooFew { .. })) => {
            format!(" {}", keep::settling_words(settling, TONGUE))
        }
        _ => String::new(),
    };
    writeln!(
        out,
        "{:<6}  {broke:<5}  {moved:<16}  {pull:>6}  {}; {}{settling}",
        (names.string)(due.string),
        keep::cover_words(covered, names, TONGUE),
        keep::due_words(due, TONGUE),
    )
}

fn drawer(needs: &Needs<'_>, names: &Names<'_>) -> Vec<String> {
    let lots = needs.lots.iter().zip(&needs.spares);
    lots.map(|(lot, spare)| {
        let place = spare.place(&needs.harp).map(|s| (names.string)(s));
        let mut words = vec![format!(
            "{} × {}",
            lot.count,
            place.unwrap_or("?".to_owned())
        )];
        words.extend(lot.material.map(|material| material.to_string()));
        words.extend(lot.gauge_mm.map(|mm| format!("{mm} mm")));
        let shelf = spare.shelf(&needs.harp, needs.now);
        words.push(keep::shelf_words(shelf, TONGUE).to_owned());
        words.join(", ")
    })
    .collect()
}

fn list(heading: &str, lines: &[String], out: &mut dyn Write) -> std::io::Result<()> {
    if !lines.is_empty() {
        writeln!(out, "{heading}")?;
    }
    for line in lines {
        writeln!(out, "  {line}")?;
    }
    Ok(())
}
