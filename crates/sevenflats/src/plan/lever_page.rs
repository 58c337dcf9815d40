//! The plan of a lever harp for people: levers before the piece, then each flip by bar.

use std::io::Write;

use harp::{Naming, StringName};
use pedals::{Hand, LeverPlan, at_passes};

use super::page::{doubts, heading, pitch, remedies, times, where_};
use super::read::Read;

/// Writes the page.
pub(crate) fn levers(
    name: &str,
    read: &Read,
    plan: &LeverPlan,
    diagnostics: &[(Option<u32>, String)],
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    heading(read, name, out)?;
    writeln!(out, "\nBefore the piece")?;
    writeln!(out, "  open tuning {}", plan.open)?;
    writeln!(out, "  levers on   {}", strings(naming, &plan.levers))?;
    flips(read, plan, naming, out)?;
    other_names(read, plan, naming, out)?;
    lost(read, plan, naming, out)?;
    let cost = &plan.cost;
    let total = cost.total();
    writeln!(
        out,
        "\n{} flipped in the piece; the plan costs {total} by these prices.",
        match cost.flips.count {
            1 => "1 lever".to_owned(),
            count => format!("{count} levers"),
        }
    )?;
    if plan.optimal {
        writeln!(
            out,
            "No plan costs less that keeps written names where they can be had."
        )?;
    } else {
        writeln!(out, "A plan could cost less, by {} at most.", plan.gap)?;
    }
    doubts(diagnostics, out)
}

fn flips(
    read: &Read,
    plan: &LeverPlan,
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    if plan.flips.is_empty() {
        return writeln!(out, "\nNo lever moves in the piece.");
    }
    writeln!(out, "\nIn the piece")?;
    let flips = plan
        .flips
        .iter()
        .map(|flip| (flip.moment, (flip.string, flip.on, flip.hand)));
    for at in at_passes::at_passes(&read.demand, flips) {
        let (string, on, hand) = at.what;
        let hand = match hand {
            Hand::Left => "left hand",
            Hand::Right => "right hand",
        };
        let to = if on { "on" } else { "off" };
        let when = match at.passes.as_slice() {
            [1] | [] => String::new(),
            passes => format!(", {}", times(passes)),
        };
        let (place, string) = (where_(read, at.moment), naming.string(string));
        writeln!(out, "  {place}  {string} {to}, {hand}{when}")?;
    }
    Ok(())
}

fn other_names(
    read: &Read,
    plan: &LeverPlan,
    naming: Naming,
    out: &mut dyn Write,
) -> std::io::Result<()> {
    let heads = plan
        .respelled
        .iter()
        .map(|head| (head.moment, (head.attack, head.written, head.played)));
    let heads = at_passes::at_passes(&read.demand, heads);
    if !heads.is_empty() {
        writeln!(out, "\nPlayed on another string than written")?;
    }
    for at in heads {
        let (_, written, played) = at.what;
        let (written, played) = (pitch(naming, written), pitch(naming, played));
        writeln!(out, "  {}  {written} as {played}", where_(read, at.moment))?;
    }
    Ok(())
}

fn lost(read: &Read, plan: &LeverPlan, naming: Naming, out: &mut dyn Write) -> std::io::Result<()> {
    let heads = at_passes::lever_cannot(&read.demand, &plan.cannot);
    if !heads.is_empty() {
        writeln!(out, "\nWhat cannot be had")?;
    }
    for at in heads {
        let (head, place) = (at.what, where_(read, at.moment));
        let why = sheet::lever_why(pitch::Tongue::English, head.reason);
        let (name, could) = (pitch(naming, head.pitch), remedies(naming, &head.remedies));
        writeln!(out, "  {place}  {name}: {why}; {could}")?;
    }
    Ok(())
}

/// Strings by their names, or that there are none.
pub(crate) fn strings(naming: Naming, strings: &[StringName]) -> String {
    if strings.is_empty() {
        return "none".to_owned();
    }
    let names: Vec<String> = strings
        .iter()
        .map(|&string| naming.string(string))
        .collect();
    names.join(" ")
}
