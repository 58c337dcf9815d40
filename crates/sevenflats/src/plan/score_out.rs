//! The score with the plan in it: the opening diagram, a diagram at every movement and rehearsal mark, each change
//! pencilled between the staves, and nothing else changed.

use std::fs::File;
use std::io::Write;
use std::path::Path;

use harp::Naming;
use pedals::in_the_score::{at, diagrams, pencilled};
use pedals::{LeverPlan, Plan, Quarters, at_passes};
use score::{NewMark, NewMarkKind};

use super::lever_page;
use super::page::times;
use super::read::Read;
use crate::trouble::Trouble;

/// Writes the score of a pedal harp.
pub(crate) fn pedals(path: &Path, read: &Read, plan: &Plan) -> Result<(), Trouble> {
    let mut marks = diagrams(&read.piece, &read.demand, plan);
    let changes = pencilled(&read.piece, &read.demand, plan, &times);
    marks.extend(changes.into_iter().map(|one| one.mark));
    write(path, read, &marks)
}

/// Writes the score of a lever harp.
pub(crate) fn levers(
    path: &Path,
    read: &Read,
    plan: &LeverPlan,
    naming: Naming,
) -> Result<(), Trouble> {
    let mut marks = Vec::new();
    if let Some(first) = read.demand.moments.first() {
        let on = lever_page::strings(naming, &plan.levers);
        let words = format!("open in {}; levers on: {on}", plan.open);
        marks.push(words_at(
            read,
            first.measure,
            Quarters::new(1, 1),
            words,
            None,
        ));
    }
    let flips = plan
        .flips
        .iter()
        .map(|flip| (flip.moment, (flip.string, flip.on)));
    for flip in at_passes::at_passes(&read.demand, flips) {
        let (string, on) = flip.what;
        let there = &read.demand.moments[flip.moment];
        let words = format!(
            "{} {}",
            naming.string(string),
            if on { "on" } else { "off" }
        );
        let every = read
            .demand
            .moments
            .iter()
            .filter(|moment| (moment.measure, moment.beat) == (there.measure, there.beat));
        let passes = every.map(|moment| moment.pass).max().unwrap_or(1);
        let some = flip.passes.len() < passes as usize;
        let when = some.then(|| times(&flip.passes));
        marks.push(words_at(read, there.measure, there.beat, words, when));
    }
    write(path, read, &marks)
}

fn words_at(
    read: &Read,
    measure: u32,
    beat: Quarters,
    words: String,
    addition: Option<String>,
) -> NewMark {
    let kind = NewMarkKind::Pencilled { words, addition };
    at(&read.piece, measure, beat, kind)
}

fn write(path: &Path, read: &Read, marks: &[NewMark]) -> Result<(), Trouble> {
    let told = |reason: String| Trouble::ScoreOut {
        path: path.to_owned(),
        reason,
    };
    let bytes = read
        .bytes_again()?
        .ok_or_else(|| told("the score was changed while it was planned; try again".to_owned()))?;
    let marked = score::with_marks(&bytes, &read.piece, marks);
    let marked = marked.map_err(|reason| told(reason.to_string()))?;
    // beside it first: a full disk must not leave half a score where a whole one was
    let beside = path.with_extension("part");
    let written = File::create(&beside)
        .and_then(|mut file| marked.pieces().try_for_each(|piece| file.write_all(piece)))
        .and_then(|()| std::fs::rename(&beside, path));
    written.map_err(|reason| {
        let _ = std::fs::remove_file(&beside);
        told(format!("{reason}; check that the folder is there, that you may write to it, and that the disk is not full"))
    })
}
