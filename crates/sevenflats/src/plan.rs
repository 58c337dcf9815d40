//! `sevenflats plan`: from a score to the harp's settings.

pub mod arguments;
mod bill;
pub(crate) mod json;
pub(crate) mod lever_page;
pub(crate) mod page;
pub(crate) mod prices;
pub(crate) mod read;
mod score_out;
pub(crate) mod wishes;

use std::io::Write;

use harp::{Harp, HarpKind, Naming};
use pedals::Plan;
use sheet::{Head, PieceSheet};

use crate::trouble::Trouble;
use crate::{printed, situation};
use arguments::PlanArguments;
use json::Told;
use prices::Prices;
use read::{Read, ReadAs};

/// Plans a score, and tells the plan.
pub(crate) fn plan(arguments: &PlanArguments, out: &mut dyn Write) -> Result<(), Trouble> {
    let prices = match &arguments.weights {
        Some(path) => prices::of_file(path).map_err(|reason| Trouble::Prices {
            path: path.clone(),
            reason,
        })?,
        None => Prices::default(),
    };
    if arguments.toml {
        write!(out, "{}", prices::to_toml(prices))?;
        return Ok(out.flush()?);
    }
    let harp = situation::harp_named(&arguments.harp)?;
    wishes::check(arguments, &harp)?;
    let Some(path) = &arguments.score else {
        return Ok(());
    };
    let read = read::read(path, &ReadAs::of(arguments))?;
    match harp.kind() {
        HarpKind::Lever => of_levers(arguments, &harp, &read, prices, out)?,
        HarpKind::Pedal | HarpKind::Free => of_pedals(arguments, &harp, &read, prices, out)?,
    }
    Ok(out.flush()?)
}

fn of_pedals(
    arguments: &PlanArguments,
    harp: &Harp,
    read: &Read,
    prices: Prices,
    out: &mut dyn Write,
) -> Result<(), Trouble> {
    let wishes = wishes::for_pedals(arguments, &read.demand, prices.pedals)?;
    let mut plan = pedals::plan(&read.demand, harp, &wishes);
    pedals::stand_as_in_the_key(&read.piece, &read.demand, &wishes, &mut plan);
    let mut diagnostics = of_the_score(read);
    let time_ran_out = plan.work > wishes.work_limit;
    if time_ran_out {
        let words = "all the time allowed went into the plan: how fast it may go was not reckoned";
        diagnostics.push((None, words.to_owned()));
    }
    let left = pedals::Wishes {
        work_limit: wishes.work_limit.saturating_sub(plan.work),
        ..wishes.clone()
    };
    let fastest = (arguments.tau > 0.0 && !time_ran_out)
        .then(|| pedals::fastest_tempo(&read.demand, harp, &left));
    diagnostics.extend(differing(read, &plan, arguments.shown.names));
    let told = Told {
        name: &arguments.harp,
        read,
        plan: &plan,
        feet: &wishes.feet,
        fastest,
        broken: wishes.broken != pedals::Broken::default(),
        diagnostics: &diagnostics,
    };
    if arguments.shown.json {
        json::pedals(&told, out)?;
    } else {
        page::pedals(&told, arguments.shown.names, out)?;
    }
    if let Some(path) = &arguments.score_out {
        score_out::pedals(path, read, &plan)?;
    }
    let sheet = || PieceSheet::of_plan(&read.piece, &read.demand, &plan, head(arguments, harp));
    printed::piece(sheet, &arguments.print, arguments.shown.names)
}

fn of_levers(
    arguments: &PlanArguments,
    harp: &Harp,
    read: &Read,
    prices: Prices,
    out: &mut dyn Write,
) -> Result<(), Trouble> {
    let (harp, wishes) = wishes::for_levers(arguments, harp, prices.levers)?;
    let diagnostics = of_the_score(read);
    let Some(plan) = pedals::plan_levers(&read.demand, &harp, &wishes) else {
        return Ok(());
    };
    if arguments.shown.json {
        json::levers(&arguments.harp, read, &plan, &diagnostics, out)?;
    } else {
        let naming = arguments.shown.names;
        lever_page::levers(&arguments.harp, read, &plan, &diagnostics, naming, out)?;
    }
    if let Some(path) = &arguments.score_out {
        score_out::levers(path, read, &plan, arguments.shown.names)?;
    }
    let sheet = || PieceSheet::of_levers(&read.piece, &read.demand, &plan, head(arguments, &harp));
    printed::piece(sheet, &arguments.print, arguments.shown.names)
}

/// What stands over the printed sheet and is in no score.
fn head(arguments: &PlanArguments, harp: &Harp) -> Head {
    Head {
        harp: situation::called(&arguments.harp, harp),
        reference: arguments.a4,
        ..Head::default()
    }
}

/// What the reader found doubtful, each with its written measure where it has one.
pub(crate) fn of_the_score(read: &Read) -> Vec<(Option<u32>, String)> {
    let told = read.piece.diagnostics.iter().map(|doubt| {
        let measure = doubt.measure.and_then(|at| read.piece.measures.get(at));
        (measure.map(|measure| measure.index), doubt.to_string())
    });
    let left_out = read.left_out.iter().map(|words| (None, words.to_string()));
    told.chain(left_out).collect()
}

/// Marks that hold at some times of a repeat only.
pub(crate) fn differing(read: &Read, plan: &Plan, naming: Naming) -> Vec<(Option<u32>, String)> {
    let marks = pedals::written_marks(&read.demand, plan);
    let told = marks.iter().filter(|mark| mark.only_then).map(|mark| {
        let name = page::with_natural(naming, mark.letter, mark.to);
        let (bar, times) = (read.bar(mark.measure), page::times(&mark.passes));
        let beat = page::counted(read, mark.measure, mark.beat);
        let said = format!("bar {bar}: {name} at beat {beat} holds the {times} only");
        (Some(mark.measure), said)
    });
    told.collect()
}
