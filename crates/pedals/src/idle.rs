//! Pedals that nothing in the piece asks for: they stand as the key has them, where a player looks for
//! them.

use std::ops::Range;

use pitch::Letter;
use score::Piece;

use crate::{Demand, Plan, Wishes};

/// Sets every pedal that is asked for nowhere in a movement as the key of its first bar has it.
/// Nothing else in the plan depends on it.
pub fn stand_as_in_the_key(piece: &Piece, demand: &Demand, wishes: &Wishes, plan: &mut Plan) {
    let firsts = demand.movements.iter().copied();
    let ends = firsts.clone().chain([demand.moments.len()]);
    for (first, end) in [0].into_iter().chain(firsts).zip(ends) {
        within_a_movement(piece, demand, wishes, plan, first..end);
    }
}

fn within_a_movement(
    piece: &Piece,
    demand: &Demand,
    wishes: &Wishes,
    plan: &mut Plan,
    moments: Range<usize>,
) {
    let bar = demand.moments.get(moments.start);
    let bar = bar.and_then(|moment| piece.measures.get(moment.measure as usize - 1));
    let Some(bar) = bar else { return };
    for letter in Letter::ALL {
        let Some(usual) = bar.key.letters().get(letter) else {
            continue;
        };
        if !is_asked(demand, wishes, plan, letter, &moments) {
            for setting in &mut plan.settings[moments.clone()] {
                *setting = setting.with(letter, usual);
            }
        }
    }
}

fn is_asked(
    demand: &Demand,
    wishes: &Wishes,
    plan: &Plan,
    letter: Letter,
    within: &Range<usize>,
) -> bool {
    let broken = &wishes.broken;
    let by_her = (within.start == 0 && wishes.opening.get(letter).is_some())
        || wishes.pins.iter().any(|pin| pin.letter == letter)
        || broken.stuck.iter().any(|&(stuck, _)| stuck == letter);
    let by_the_part = demand.moments[within.clone()].iter().any(|moment| {
        let notes = || {
            moment
                .attacks
                .iter()
                .any(|attack| attack.pitch.letter == letter)
                || moment.tremolo.iter().any(|note| note.letter == letter)
        };
        moment.glissando.get(letter).is_some() || moment.marks.get(letter).is_some() || notes()
    });
    let by_the_plan = || {
        let mut changes = plan.changes.iter();
        let mut heads = plan.respelled.iter();
        changes.any(|change| change.letter == letter && within.contains(&change.moment))
            || heads.any(|head| head.played.letter == letter && within.contains(&head.moment))
    };
    by_her || by_the_part || by_the_plan()
}
