//! A plan as it is written into the part: what is played twice is written once.

use pitch::Alteration;
use pitch::Letter;

use crate::code::{Code, code_of, place};
use crate::playings::{OnlyThen, Playings};
use crate::{Change, Demand, Foot, Plan, Quarters};

/// One mark in the part.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// The written measure, from 1.
    pub measure: u32,
    /// Where in it: quarters, its first beat is 1.
    pub beat: Quarters,
    /// The foot.
    pub foot: Foot,
    /// The pedal.
    pub letter: Letter,
    /// From where.
    pub from: Alteration,
    /// To where.
    pub to: Alteration,
    /// The times of playing at which it moves something.
    pub passes: Vec<u32>,
    /// Whether it must not be followed at the other times.
    pub only_then: bool,
    /// The change at the first of these times, by its place in the plan.
    pub change: usize,
}

/// Every mark in the order of the part. A change between two moments is written at the second; of
/// two changes of a pedal for one moment only where it ends.
pub fn written_marks(demand: &Demand, plan: &Plan) -> Vec<Mark> {
    let playings = Playings::of(demand);
    let codes: Vec<Code> = plan.settings.iter().map(code_of).collect();
    let only_then = playings.only_then(&codes);
    let mut marks: Vec<(usize, Mark)> = Vec::new();
    for (index, change) in plan.changes.iter().enumerate() {
        if goes_on(&plan.changes[index + 1..], change) {
            continue;
        }
        let moment = &demand.moments[change.moment];
        let written = playings.written(change.moment);
        let same = marks.iter_mut().find(|(at, mark)| {
            *at == written && (mark.letter, mark.to) == (change.letter, change.to)
        });
        if let Some((_, mark)) = same {
            mark.passes.push(moment.pass);
            continue;
        }
        let this = OnlyThen {
            written,
            letter: change.letter.index(),
            to: place(change.to),
        };
        let mark = Mark {
            measure: moment.measure,
            beat: moment.beat,
            foot: change.foot,
            letter: change.letter,
            from: change.from,
            to: change.to,
            passes: vec![moment.pass],
            only_then: only_then.contains(&this),
            change: index,
        };
        marks.push((written, mark));
    }
    // in one place in the order in which they are made
    marks.sort_by_key(|(written, mark)| (mark.measure, mark.beat, *written));
    marks.into_iter().map(|(_, mark)| mark).collect()
}

/// Whether the pedal moves on for the same moment.
fn goes_on(later: &[Change], change: &Change) -> bool {
    let mut here = later
        .iter()
        .take_while(|other| other.moment == change.moment);
    here.any(|other| other.letter == change.letter)
}
