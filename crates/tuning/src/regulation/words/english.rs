//! English.

use harp::Position;

use super::Words;
use crate::regulation::{Cause, Step};

pub(super) const WORDS: Words = Words {
    set: |position, levers| match (position, levers) {
        (Position::Open, false) => "All pedals up again, then pluck on.",
        (Position::Natural, false) => "All pedals to the middle, then pluck on.",
        (Position::Sharp, false) => "All pedals down, then pluck on.",
        (Position::Open, true) => "All levers off again, then pluck on.",
        (Position::Natural | Position::Sharp, true) => "All levers on, then pluck on.",
    },
    as_before: |string, pedal| match pedal {
        Some(letter) => format!(
            "{string} sounds as before: is the {letter} pedal where it should be? Pluck it again; then it is taken as it is."
        ),
        None => format!(
            "{string} sounds as before: is its lever where it should be? Pluck it again; then it is taken as it is."
        ),
    },
    far: |string, cents| {
        format!(
            "{string} is {cents} cents off, which is no step: is it the right string? If so, tune it first, or leave it out."
        )
    },
    not_asked: |string| format!("{string} is not asked for here."),
    done: |levers| match levers {
        false => "That is all of it, and all pedals are up.",
        true => "That is all of it, and all levers are off.",
    },
    step: |step| match step {
        Step::Natural => "natural",
        Step::Sharp => "sharp",
    },
    cause: |cause| match cause {
        Cause::Pedal => "the whole letter, its pedal",
        Cause::Disc => "this disc",
        Cause::Lever => "this lever",
        Cause::Own => {
            "the string comes back elsewhere of itself, so nothing is said of its disc or lever"
        }
        Cause::PedalNotMoved => "no step on the whole letter: was the pedal moved?",
        Cause::NoStep => "no step: does its disc or lever reach it?",
    },
    new: "new: shown, not judged",
    whose: [
        "Discs, levers' mountings, rods, linkage and neck are your technician's: a disc that is bent by hand can break off.",
        "Yours to do: tune, fit strings (two weeks before a regulation, a week at the least), see that felts and windings sit in place.",
        "No bounds are published for harps; 3, 5 and 10 cents are a proposal, and your technician's word comes before it.",
    ],
    leave: "Leave the harp with all pedals up, or all levers off.",
};
