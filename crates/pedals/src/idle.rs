//! Pedals that nothing in the piece asks for: they stand as the key has them, where a player looks for
//! them.

use pitch::Letter;
use score::Piece;

use crate::{Demand, Plan, Wishes};

/// Sets every pedal that is asked for nowhere as the key of the first bar has it. Nothing else in
/// the plan depends on it.
pub fn stand_as_in_the_key(piece: &Piece, demand: &Demand, wishes: &Wishes, plan: &mut Plan) {
    let Some(first) = piece.measures.first() else {
        return;
    };
    for letter in Letter::ALL {
        let Some(usual) = first.key.letters().get(letter) else {
            continue;
        };
        if !is_asked(demand, wishes, plan, letter) {
            for setting in &mut plan.settings {
                *setting = setting.with(letter, usual);
            }
        }
    }
}

fn is_asked(demand: &Demand, wishes: &Wishes, plan: &Plan, letter: Letter) -> bool {
    let broken = &wishes.broken;
    let by_her = wishes.opening.get(letter).is_some()
        || wishes.pins.iter().any(|pin| pin.letter == letter)
        || broken.stuck.iter().any(|&(stuck, _)| stuck == letter);
    let by_the_part = demand.moments.iter().any(|moment| {
        let notes = || {
            moment
                .attacks
                .iter()
                .any(|attack| attack.pitch.letter == letter)
        };
        moment.glissando.get(letter).is_some() || moment.marks.get(letter).is_some() || notes()
    });
    let by_the_plan = || {
        let moved = plan.changes.iter().any(|change| change.letter == letter);
        moved
            || plan
                .respelled
                .iter()
                .any(|head| head.played.letter == letter)
    };
    by_her || by_the_part || by_the_plan()
}
