//! Movements, each for itself: between them there is time to set all pedals, and no price on it.

use std::collections::BTreeMap;

use harp::Setting;

use crate::{Cost, Demand, Item, Plan, Wishes};

/// One movement: its first moment in the whole, what it asks, and how she wants it.
pub(crate) struct Movement {
    pub(crate) first: usize,
    pub(crate) demand: Demand,
    pub(crate) wishes: Wishes,
}

/// The movements of a piece, if it has more than one.
pub(crate) fn movements(demand: &Demand, wishes: &Wishes) -> Vec<Movement> {
    let within = |first: &&usize| **first > 0 && **first < demand.moments.len();
    let mut firsts: Vec<usize> = demand.movements.iter().filter(within).copied().collect();
    if firsts.is_empty() {
        return Vec::new();
    }
    firsts.sort_unstable();
    firsts.dedup();
    let begins = [0].into_iter().chain(firsts.iter().copied());
    let ends = firsts.iter().copied().chain([demand.moments.len()]);
    let all = begins.zip(ends).map(|(first, end)| {
        let pins = wishes.pins.iter().copied();
        let mut own = Wishes {
            pins: pins
                .filter(|pin| (first..end).contains(&pin.moment))
                .collect(),
            ..wishes.clone()
        };
        own.pins.iter_mut().for_each(|pin| pin.moment -= first);
        if first > 0 {
            own.opening = Setting::default();
        }
        Movement {
            first,
            demand: Demand {
                moments: demand.moments[first..end].to_vec(),
                movements: Vec::new(),
            },
            wishes: own,
        }
    });
    all.collect()
}

/// The plans of the movements as one; each with its movement's first moment.
pub(crate) fn joined(demand: &Demand, plans: Vec<(usize, Plan)>) -> Plan {
    let mut whole = Plan {
        settings: Vec::with_capacity(demand.moments.len()),
        changes: Vec::new(),
        respelled: Vec::new(),
        cannot: Vec::new(),
        contradicted: Vec::new(),
        tuned: Vec::new(),
        cost: Cost::default(),
        optimal: true,
        gap: 0,
        work: 0,
    };
    let mut stand = BTreeMap::new();
    for (first, mut plan) in plans {
        let end = first + plan.settings.len();
        plan.changes.iter_mut().for_each(|it| it.moment += first);
        plan.respelled.iter_mut().for_each(|it| it.moment += first);
        plan.cannot.iter_mut().for_each(|it| it.moment += first);
        plan.contradicted
            .iter_mut()
            .for_each(|it| it.moment += first);
        plan.tuned.iter_mut().for_each(|it| it.from_moment += first);
        // a string that the movement does not play keeps its pitch
        plan.tuned.retain(|tuned| {
            let heads = demand.moments[first..end].iter().flat_map(|m| &m.attacks);
            let played = heads.map(|head| head.pitch.midi()).any(|m| m == tuned.midi);
            let before = stand.get(&tuned.string);
            let anew = before.is_none() || (played && before != Some(&tuned.midi));
            if anew {
                stand.insert(tuned.string, tuned.midi);
            }
            anew
        });
        whole.settings.extend(plan.settings);
        whole.changes.extend(plan.changes);
        whole.respelled.extend(plan.respelled);
        whole.cannot.extend(plan.cannot);
        whole.contradicted.extend(plan.contradicted);
        whole.tuned.extend(plan.tuned);
        whole.cost = sum(&whole.cost, &plan.cost);
        whole.optimal &= plan.optimal;
        whole.gap += plan.gap;
        whole.work += plan.work;
    }
    whole
}

fn sum(one: &Cost, other: &Cost) -> Cost {
    let add = |one: Item, other: Item| Item {
        count: one.count + other.count,
        price: one.price + other.price,
    };
    Cost {
        lost: add(one.lost, other.lost),
        glissando: add(one.glissando, other.glissando),
        respelled: add(one.respelled, other.respelled),
        moved: add(one.moved, other.moved),
        two_notches: add(one.two_notches, other.two_notches),
        off_beat: add(one.off_beat, other.off_beat),
        ringing: add(one.ringing, other.ringing),
        crossing: add(one.crossing, other.crossing),
        together: add(one.together, other.together),
        marks: add(one.marks, other.marks),
        retuned: add(one.retuned, other.retuned),
        pins: add(one.pins, other.pins),
        passes_differ: add(one.passes_differ, other.passes_differ),
    }
}
