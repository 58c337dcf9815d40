//! What is played twice is told once, with the times of playing at which it holds.

use std::collections::BTreeMap;

use harp::Setting;
use pitch::SpelledPitch;

use crate::{Cannot, Demand, LeverCannot, Quarters, Respelled};

/// A written place, and at which times of playing something holds there.
#[derive(Clone, Debug, PartialEq)]
pub struct AtPasses<T> {
    /// The moment at the first of them.
    pub moment: usize,
    /// The times of playing, ascending.
    pub passes: Vec<u32>,
    /// What holds.
    pub what: T,
}

/// Puts together what is the same at the same written place at different times of playing.
pub fn at_passes<T: PartialEq>(
    demand: &Demand,
    items: impl IntoIterator<Item = (usize, T)>,
) -> Vec<AtPasses<T>> {
    at_passes_by(demand, items, |one, other| one == other)
}

/// The same, where what is the same is told by `same`.
pub fn at_passes_by<T>(
    demand: &Demand,
    items: impl IntoIterator<Item = (usize, T)>,
    same: impl Fn(&T, &T) -> bool,
) -> Vec<AtPasses<T>> {
    let mut told: Vec<AtPasses<T>> = Vec::new();
    let mut places: BTreeMap<(u32, Quarters), Vec<usize>> = BTreeMap::new();
    for (moment, what) in items {
        let there = &demand.moments[moment];
        let place = places.entry((there.measure, there.beat)).or_default();
        let same = place.iter().copied().find(|&at| {
            same(&told[at].what, &what)
                && told[at].passes.last().is_none_or(|&last| last < there.pass)
        });
        if let Some(same) = same {
            told[same].passes.push(there.pass);
        } else {
            place.push(told.len());
            told.push(AtPasses {
                moment,
                passes: vec![there.pass],
                what,
            });
        }
    }
    told.sort_by_key(|at| {
        let there = &demand.moments[at.moment];
        (there.measure, there.beat, at.moment)
    });
    told
}

/// A respelled head: what she reads, what she plays.
pub type OtherName = (usize, SpelledPitch, SpelledPitch);

/// Note heads on another string than the written one.
pub fn respelled(demand: &Demand, heads: &[Respelled]) -> Vec<AtPasses<OtherName>> {
    let told = heads.iter().map(|head| {
        let name = (head.attack, head.written, head.played);
        (head.moment, name)
    });
    at_passes(demand, told)
}

/// Note heads that do not sound.
pub fn cannot<'a>(demand: &Demand, heads: &'a [Cannot]) -> Vec<AtPasses<&'a Cannot>> {
    let told = heads.iter().map(|head| (head.moment, head));
    at_passes_by(demand, told, |one, other| {
        let key = |lost: &Cannot| (lost.attack, lost.pitch, lost.reason);
        key(one) == key(other) && one.remedies == other.remedies
    })
}

/// The same for a lever harp.
pub fn lever_cannot<'a>(
    demand: &Demand,
    heads: &'a [LeverCannot],
) -> Vec<AtPasses<&'a LeverCannot>> {
    let told = heads.iter().map(|head| (head.moment, head));
    at_passes_by(demand, told, |one, other| {
        let key = |lost: &LeverCannot| (lost.attack, lost.pitch, lost.reason);
        key(one) == key(other) && one.remedies == other.remedies
    })
}

/// Where the pedals stand at the beginning of each written measure: one can start anywhere.
pub fn settings(demand: &Demand, settings: &[Setting]) -> Vec<AtPasses<Setting>> {
    let mut seen: Option<(u32, u32)> = None;
    let mut first = Vec::new();
    for (index, (moment, setting)) in demand.moments.iter().zip(settings).enumerate() {
        if seen != Some((moment.measure, moment.pass)) {
            seen = Some((moment.measure, moment.pass));
            first.push((index, *setting));
        }
    }
    let mut told: BTreeMap<u32, Vec<AtPasses<Setting>>> = BTreeMap::new();
    for (moment, what) in first {
        let there = &demand.moments[moment];
        let of_measure = told.entry(there.measure).or_default();
        match of_measure.iter_mut().find(|at| at.what == what) {
            Some(same) => same.passes.push(there.pass),
            None => of_measure.push(AtPasses {
                moment,
                passes: vec![there.pass],
                what,
            }),
        }
    }
    told.into_values().flatten().collect()
}
