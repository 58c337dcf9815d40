//! Which measures of a plan are whole.

use std::collections::{BTreeMap, BTreeSet};

use crate::{Demand, Plan};

/// All written measures that are played, each with a pass, in playing order.
pub fn played_measures(demand: &Demand) -> Vec<(u32, u32)> {
    let moments = demand.moments.iter();
    let mut played: Vec<(u32, u32)> = moments
        .map(|moment| (moment.measure, moment.pass))
        .collect();
    played.dedup();
    played
}

/// The written measures, each with a pass, in which every note sounds and every glissando finds its
/// setting, in playing order: with something broken, those that survive.
pub fn surviving_measures(demand: &Demand, plan: &Plan) -> Vec<(u32, u32)> {
    let mut whole: BTreeMap<(u32, u32), bool> = BTreeMap::new();
    let mut order = Vec::new();
    let lost: BTreeSet<usize> = plan.cannot.iter().map(|cannot| cannot.moment).collect();
    for (index, (moment, setting)) in demand.moments.iter().zip(&plan.settings).enumerate() {
        let key = (moment.measure, moment.pass);
        let wrong = |letter: &pitch::Letter| {
            let wanted = moment.glissando.get(*letter);
            wanted.is_some() && wanted != setting.get(*letter)
        };
        let sounds = |note: &pitch::SpelledPitch| {
            let mut letters = pitch::Letter::ALL.into_iter();
            letters.any(|letter| {
                let stands = setting.get(letter).map_or(0, pitch::Alteration::semitones);
                (letter.semitones() + i32::from(stands) - note.midi()).rem_euclid(12) == 0
            })
        };
        let holds = !lost.contains(&index)
            && !pitch::Letter::ALL.iter().any(wrong)
            && moment.tremolo.iter().all(sounds);
        let before = whole.insert(key, holds && whole.get(&key) != Some(&false));
        if before.is_none() {
            order.push(key);
        }
    }
    order.retain(|key| whole.get(key) == Some(&true));
    order
}
