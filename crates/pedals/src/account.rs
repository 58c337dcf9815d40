//! Going through a plan note by note and move by move: what sounds where, what does not and why,
//! and what it all costs.

use std::cell::OnceCell;

use harp::StringName;
use pitch::{Letter, SpelledPitch};

use crate::Moment;
use crate::asked::{PIN, allowed_ways};
use crate::code::{Code, alteration, place, places_of};
use crate::each_change::add_moves;
use crate::plan::{Cannot, Change, Plan, Respelled};
use crate::ready::Ready;
use crate::reason::{reason, remedies};
use crate::ways::{By, Way};

/// Fills in what the settings and changes of a plan mean.
pub(crate) fn account(ready: &Ready<'_>, codes: &[Code], plan: &mut Plan) {
    for (index, moment) in ready.demand.moments.iter().enumerate() {
        notes(ready, codes[index], index, moment, plan);
        letters(ready, codes[index], index, moment, plan);
    }
    for pin in &ready.wishes.pins {
        let stands = codes
            .get(pin.moment)
            .map(|&code| places_of(code)[pin.letter.index()]);
        if stands.is_some_and(|stands| stands != place(pin.alteration)) {
            plan.cost.pins.add(PIN);
        }
    }
    add_moves(ready.demand, ready.wishes, plan);
    let retuned = ready.by_key.retuned;
    plan.cost.retuned.count = retuned;
    plan.cost.retuned.price = u64::from(retuned) * u64::from(ready.wishes.weights.retuned);
}

/// How a note sounds as the pedals stand: the way taken, if any.
pub(crate) fn sounding(
    ready: &Ready<'_>,
    code: Code,
    index: usize,
    written: SpelledPitch,
    ways: &[Way],
) -> Option<Way> {
    let stands = |way: &&Way| match way.by {
        By::Pedal { place } => places_of(code)[way.string.letter.index()] == place,
        By::Key { string } => ready.by_key.at(index, string) == Some(written.midi()),
    };
    ways.iter().find(stands).copied()
}

fn notes(ready: &Ready<'_>, code: Code, index: usize, moment: &Moment, plan: &mut Plan) {
    let weights = &ready.wishes.weights;
    let at_once = OnceCell::new();
    for (attack, note) in moment.attacks.iter().enumerate() {
        let written = note.pitch;
        let ways = allowed_ways(moment, written, &ready.strings, ready.wishes);
        let way = sounding(ready, code, index, written, &ways);
        let Some(way) = way else {
            plan.cost.lost.add(weights.lost);
            plan.cannot.push(Cannot {
                moment: index,
                attack,
                pitch: written,
                reason: reason(ready, index, written, &ways, &at_once),
                remedies: remedies(ready, code, index, written),
            });
            continue;
        };
        if way.respelled {
            plan.cost.respelled.add(u64::from(weights.respelled));
            plan.respelled.push(Respelled {
                moment: index,
                attack,
                written,
                played: played(way.string, written),
                string: way.string,
            });
        }
    }
}

/// The name of a sound on a string.
pub(crate) fn played(string: StringName, written: SpelledPitch) -> SpelledPitch {
    SpelledPitch {
        letter: string.letter,
        alter: (written.midi() - string.key()) as i8,
        octave: string.octave,
    }
}

/// Glissandi, tremolos, marks and an opening that was given.
fn letters(ready: &Ready<'_>, code: Code, index: usize, moment: &Moment, plan: &mut Plan) {
    let weights = &ready.wishes.weights;
    for &written in &moment.tremolo {
        let ways = allowed_ways(moment, written, &ready.strings, ready.wishes);
        if sounding(ready, code, index, written, &ways).is_none() {
            plan.cost.glissando.add(weights.glissando);
        }
    }
    for letter in Letter::ALL {
        let stands = alteration(places_of(code)[letter.index()]);
        let differs = |wanted: Option<pitch::Alteration>| wanted.is_some_and(|w| w != stands);
        if differs(moment.glissando.get(letter)) {
            plan.cost.glissando.add(weights.glissando);
        }
        if differs(moment.marks.get(letter)) {
            plan.cost.marks.add(u64::from(weights.mark));
        }
        if index == 0 && differs(ready.wishes.opening.get(letter)) {
            plan.cost.pins.add(PIN);
        }
    }
}

/// Notches of a change, 1 or 2.
pub(crate) fn notches(change: &Change) -> u8 {
    place(change.from).abs_diff(place(change.to))
}
