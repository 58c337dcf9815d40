//! A plan as it is written into the part: what is played twice is written once.

use std::collections::BTreeMap;

use harp::Setting;
use pitch::{Alteration, Letter};

use crate::{Demand, Foot, Plan, Quarters};

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

/// Every mark in the order of the part. A change between two moments is written at the second.
pub fn written_marks(demand: &Demand, plan: &Plan) -> Vec<Mark> {
    let places = places(demand);
    let mut marks: Vec<Mark> = Vec::new();
    for (index, change) in plan.changes.iter().enumerate() {
        let moment = &demand.moments[change.moment];
        let same = marks.iter_mut().find(|mark| {
            (mark.measure, mark.beat) == (moment.measure, moment.beat)
                && (mark.letter, mark.to) == (change.letter, change.to)
        });
        if let Some(mark) = same {
            mark.passes.push(moment.pass);
            continue;
        }
        marks.push(Mark {
            measure: moment.measure,
            beat: moment.beat,
            foot: change.foot,
            letter: change.letter,
            from: change.from,
            to: change.to,
            passes: vec![moment.pass],
            only_then: differs(&places, &plan.settings, demand, index, plan),
            change: index,
        });
    }
    marks.sort_by_key(|mark| (mark.measure, mark.beat));
    marks
}

/// How many marks hold for some passes only.
pub(crate) fn differing(demand: &Demand, plan: &Plan) -> u32 {
    let marks = written_marks(demand, plan);
    marks.iter().filter(|mark| mark.only_then).count() as u32
}

/// The moments at each written place.
pub(crate) fn places(demand: &Demand) -> BTreeMap<(u32, Quarters), Vec<usize>> {
    let mut places: BTreeMap<_, Vec<usize>> = BTreeMap::new();
    for (index, moment) in demand.moments.iter().enumerate() {
        let key = (moment.measure, moment.beat);
        places.entry(key).or_default().push(index);
    }
    places
}

/// Whether the pedal stands elsewhere at another playing of the place.
fn differs(
    places: &BTreeMap<(u32, Quarters), Vec<usize>>,
    settings: &[Setting],
    demand: &Demand,
    index: usize,
    plan: &Plan,
) -> bool {
    let change = &plan.changes[index];
    let moment = &demand.moments[change.moment];
    let all = places.get(&(moment.measure, moment.beat));
    all.into_iter().flatten().any(|&other| {
        demand.moments[other].pass != moment.pass
            && settings[other].get(change.letter) != Some(change.to)
    })
}
