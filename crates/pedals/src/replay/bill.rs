//! The bill of a replay: every price added up again.

use std::collections::{BTreeMap, BTreeSet};

use harp::{Harp, Setting};
use pitch::{Letter, SpelledPitch};

use super::{Fault, strings};
use crate::{Change, Demand, Foot, Moment, Plan, Strength, Wishes};

type Line = (u32, u64);

pub(super) fn faults(demand: &Demand, harp: &Harp, wishes: &Wishes, plan: &Plan) -> Vec<Fault> {
    let weights = &wishes.weights;
    let times = |count: usize, price: u64| -> Line { (count as u32, count as u64 * price) };
    let of = |which: &dyn Fn(&Change) -> bool, price: u32| {
        let count = plan.changes.iter().filter(|change| which(change)).count();
        times(count, u64::from(price))
    };
    let two = |change: &Change| (change.from as i8 - change.to as i8).abs() == 2;
    let off = |change: &Change| !on_a_beat_or_in_a_rest(demand, change);
    let over = |change: &Change| Foot::of(change.letter) != change.foot;
    let pairs = plan.changes.iter().filter(|c| c.together).count() / 2;
    let rests = plan.tuned.iter().filter(|tuned| tuned.in_a_rest).count();
    let respelled = u64::from(weights.respelled);
    let found: [(&'static str, Line); 13] = [
        ("lost", times(plan.cannot.len(), weights.lost)),
        ("glissando", glissando(demand, harp, wishes, plan)),
        ("respelled", times(plan.respelled.len(), respelled)),
        ("moved", of(&|_| true, weights.moved)),
        ("two_notches", of(&two, weights.two_notches)),
        ("off_beat", of(&off, weights.off_beat)),
        ("ringing", ringing(demand, wishes, plan)),
        ("crossing", of(&over, weights.crossing)),
        ("together", times(pairs, u64::from(weights.together))),
        ("marks", marks(demand, wishes, plan)),
        ("retuned", times(rests, u64::from(weights.retuned))),
        ("pins", pins(wishes, plan)),
        ("passes_differ", passes_differ(demand, wishes, plan)),
    ];
    let mut faults = Vec::new();
    for (item, found) in found {
        let told = plan
            .cost
            .items()
            .into_iter()
            .find(|(name, _)| *name == item);
        let told = told.map_or((0, 0), |(_, told)| (told.count, told.price));
        if told != found {
            faults.push(Fault::Item { item, told, found });
        }
    }
    faults
}

fn on_a_beat_or_in_a_rest(demand: &Demand, change: &Change) -> bool {
    let own = &demand.moments[change.moment];
    let before = &demand.moments[change.moment - 1];
    if change.at_us == own.at_us {
        own.rest || own.strength != Strength::Off
    } else {
        before.rest
    }
}

fn glissando(demand: &Demand, harp: &Harp, wishes: &Wishes, plan: &Plan) -> Line {
    let wrong = demand
        .moments
        .iter()
        .zip(&plan.settings)
        .flat_map(|(m, s)| {
            let wrong = |letter: &Letter| {
                let wanted = m.glissando.get(*letter);
                wanted.is_some() && wanted != s.get(*letter)
            };
            Letter::ALL.into_iter().filter(wrong)
        });
    let count = wrong.count() + strings::silent_tremolos(demand, harp, wishes, plan);
    (count as u32, count as u64 * wishes.weights.glissando)
}

fn marks(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Line {
    let mut count = 0;
    for (moment, setting) in demand.moments.iter().zip(&plan.settings) {
        for letter in Letter::ALL {
            let marked = moment.marks.get(letter);
            count += u32::from(marked.is_some() && marked != setting.get(letter));
        }
    }
    let told = plan.contradicted.len() as u32;
    // a mark that is contradicted must be told
    let price = u64::from(wishes.weights.mark);
    (count.max(told), u64::from(count.max(told)) * price)
}

fn pins(wishes: &Wishes, plan: &Plan) -> Line {
    let kept = |letter, moment: usize, at| plan.settings.get(moment).map(|s| s.get(letter) == at);
    let pins = wishes.pins.iter();
    let broken = pins.filter(|p| kept(p.letter, p.moment, Some(p.alteration)) == Some(false));
    let given = Letter::ALL.into_iter().filter(|&letter| {
        let given = wishes.opening.get(letter);
        given.is_some() && kept(letter, 0, given) == Some(false)
    });
    let count = broken.count() + given.count();
    (count as u32, count as u64 * (1 << 44))
}

/// Marks that some other pass contradicts: where a pedal moves for a moment, it must stand so at
/// every playing of it.
fn passes_differ(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Line {
    let mut seen = BTreeMap::new();
    let mut stands: BTreeMap<_, Vec<&Setting>> = BTreeMap::new();
    let mut names = Vec::new();
    for (moment, setting) in demand.moments.iter().zip(&plan.settings) {
        // of grace notes at one beat the first, the second …
        let at = seen.entry((moment.measure, moment.pass, moment.beat));
        let at = at.and_modify(|at| *at += 1).or_insert(0);
        let name = (moment.measure, moment.beat, *at);
        stands.entry(name).or_default().push(setting);
        names.push(name);
    }
    let mut differ = BTreeSet::new();
    for (before, name) in names.iter().skip(1).enumerate() {
        if demand.movements.contains(&(before + 1)) {
            continue;
        }
        let pair = &plan.settings[before..];
        for letter in Letter::ALL {
            let to = pair[1].get(letter);
            let elsewhere = stands[name].iter().any(|other| other.get(letter) != to);
            if pair[0].get(letter) != to && elsewhere {
                differ.insert((name, letter.index(), to.map(pitch::Alteration::semitones)));
            }
        }
    }
    let count = if wishes.same_marks { differ.len() } else { 0 };
    let price = u64::from(wishes.weights.passes_differ);
    (count as u32, count as u64 * price)
}

/// Seconds for which a string of each scientific octave, 0 to 8, counts as ringing.
const SECONDS: [f64; 9] = [8.0, 8.0, 6.0, 4.5, 3.0, 2.0, 1.2, 0.7, 0.5];

fn ringing(demand: &Demand, wishes: &Wishes, plan: &Plan) -> Line {
    let mut line = (0, 0);
    for change in &plan.changes {
        let share = share(demand, change);
        if share > 0 {
            line.0 += 1;
            line.1 += u64::from(wishes.weights.ringing) * share / 1024;
        }
    }
    line
}

/// In 1024ths, the loudest string of the letter, looking back from the change.
fn share(demand: &Demand, change: &Change) -> u64 {
    let own = &demand.moments[change.moment];
    if own.damped && own.at_us == change.at_us {
        return 0;
    }
    let mut loudest = 0;
    let mut seen = Vec::new();
    for (index, moment) in demand.moments[..change.moment].iter().enumerate().rev() {
        for octave in 0..=8 {
            if left_to_ring(moment, change.letter, octave) && !seen.contains(&octave) {
                seen.push(octave);
                let fades = (SECONDS[octave as usize] * 1e6) as u64;
                let left = fades.saturating_sub(change.at_us - moment.at_us);
                loudest = loudest.max(1024 * left / fades);
            }
        }
        for note in moment.attacks.iter().rev() {
            let octave = note.pitch.octave.clamp(0, 8);
            if note.pitch.letter != change.letter || seen.contains(&octave) {
                continue;
            }
            seen.push(octave);
            let fades = (SECONDS[octave as usize] * 1e6) as u64;
            let age = change.at_us - moment.at_us;
            if age < fades && age < note.rings_us {
                loudest = loudest.max(1024 * (fades - age) / fades);
            }
        }
        if moment.damped || demand.movements.contains(&index) {
            break;
        }
    }
    loudest
}

/// Whether a glissando or a tremolo strikes the string of a letter and octave at a moment.
fn left_to_ring(moment: &Moment, letter: Letter, octave: i8) -> bool {
    let height = |pitch: SpelledPitch| (pitch.octave, pitch.letter.index());
    let here = (octave, letter.index());
    let swept = moment.swept;
    swept.is_some_and(|(low, high)| height(low) <= here && here <= height(high))
        || moment.tremolo.iter().any(|&pitch| height(pitch) == here)
}
