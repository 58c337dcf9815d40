//! The score with the plan in it: the opening diagram, a diagram at every rehearsal mark, each change
//! pencilled between the staves, and nothing else changed.

use std::path::Path;

use harp::{Naming, Setting};
use pedals::{Foot, LeverPlan, Plan, Quarters};
use pitch::{Alteration, Language, Letter, SpelledPitch};
use score::{Fraction, Letters, NewMark, NewMarkKind};

use super::page::times;
use super::read::Read;
use super::written;
use crate::trouble::Trouble;

/// Writes the score of a pedal harp.
pub(crate) fn pedals(path: &Path, read: &Read, plan: &Plan) -> Result<(), Trouble> {
    let mut marks = diagrams(read, plan);
    let changes = pedals::written_marks(&read.demand, plan);
    for changes in
        changes.chunk_by(|one, other| (one.measure, one.beat) == (other.measure, other.beat))
    {
        for foot in [Foot::Right, Foot::Left] {
            let plain = changes
                .iter()
                .filter(|mark| mark.foot == foot && !mark.only_then);
            let words: Vec<String> = plain.map(|mark| letter(mark.letter, mark.to)).collect();
            if let (false, Some(first)) = (words.is_empty(), changes.first()) {
                marks.push(pencilled(
                    read,
                    first.measure,
                    first.beat,
                    words.join(" "),
                    None,
                ));
            }
            for mark in changes
                .iter()
                .filter(|mark| mark.foot == foot && mark.only_then)
            {
                let words = letter(mark.letter, mark.to);
                let when = Some(times(&mark.passes));
                marks.push(pencilled(read, mark.measure, mark.beat, words, when));
            }
        }
    }
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
        let on: Vec<String> = plan
            .levers
            .iter()
            .map(|&string| naming.string(string))
            .collect();
        let on = if on.is_empty() {
            "none".to_owned()
        } else {
            on.join(" ")
        };
        let words = format!("open in {}; levers on: {on}", plan.open);
        marks.push(pencilled(
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
    for at in written::at_passes(&read.demand, flips) {
        let (string, on) = at.what;
        let there = &read.demand.moments[at.moment];
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
        let some = at.passes.len() < passes as usize;
        let when = some.then(|| times(&at.passes));
        marks.push(pencilled(read, there.measure, there.beat, words, when));
    }
    write(path, read, &marks)
}

/// The opening setting and that of every rehearsal mark, where it is the same at every playing.
fn diagrams(read: &Read, plan: &Plan) -> Vec<NewMark> {
    let settings = written::settings(&read.demand, &plan.settings);
    let mut marks = Vec::new();
    for of_measure in settings.chunk_by(|one, other| measure(read, one) == measure(read, other)) {
        let [only] = of_measure else { continue };
        let at = measure(read, only);
        if only.moment == 0 || read.rehearsal(at).is_some() {
            let kind = NewMarkKind::Diagram(letters(only.what));
            marks.push(new_mark(read, at, Quarters::new(1, 1), kind));
        }
    }
    let opened = marks.first().is_some_and(|mark| mark.measure == 0);
    if let (false, Some(opening), Some(first)) =
        (opened, plan.opening(), read.demand.moments.first())
    {
        let kind = NewMarkKind::Diagram(letters(opening));
        marks.insert(0, new_mark(read, first.measure, Quarters::new(1, 1), kind));
    }
    marks
}

fn measure<T>(read: &Read, at: &written::AtPasses<T>) -> u32 {
    read.demand.moments[at.moment].measure
}

fn letters(setting: Setting) -> Letters {
    let known = Letter::ALL.into_iter();
    let known = known.filter_map(|letter| Some((letter, setting.get(letter)?)));
    known.fold(Letters::default(), |letters, (letter, at)| {
        letters.with(letter, at)
    })
}

/// As any reader of notes reads it: letter and sign.
fn letter(letter: Letter, to: Alteration) -> String {
    let name = Language::English.name(SpelledPitch::new(letter, to, 4));
    let natural = if to == Alteration::Natural { "♮" } else { "" };
    name + natural
}

fn pencilled(
    read: &Read,
    measure: u32,
    beat: Quarters,
    words: String,
    addition: Option<String>,
) -> NewMark {
    new_mark(
        read,
        measure,
        beat,
        NewMarkKind::Pencilled { words, addition },
    )
}

fn new_mark(read: &Read, measure: u32, beat: Quarters, kind: NewMarkKind) -> NewMark {
    let offset = Fraction::new(beat.numerator() - beat.denominator(), beat.denominator());
    let index = (measure as usize).saturating_sub(1);
    NewMark::between_staves(&read.piece, index, offset.unwrap_or(Fraction::ZERO), kind)
}

fn write(path: &Path, read: &Read, marks: &[NewMark]) -> Result<(), Trouble> {
    let text = score::with_marks(&read.bytes, &read.piece, marks);
    let text = text.map_err(|reason| Trouble::ScoreOut {
        path: path.to_owned(),
        reason: reason.to_string(),
    })?;
    // beside it first: a full disk must not leave half a score where a whole one was
    let beside = path.with_extension("part");
    let written = std::fs::write(&beside, text).and_then(|()| std::fs::rename(&beside, path));
    written.map_err(|reason| {
        let _ = std::fs::remove_file(&beside);
        Trouble::ScoreOut {
            path: path.to_owned(),
            reason: format!("{reason}; check that the folder is there, that you may write to it, and that the disk is not full"),
        }
    })
}
