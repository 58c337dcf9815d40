//! What a check says to people.

use harp::{HarpKind, Naming, Position};
use pitch::signed;
use tuning::regulation::{Cause, Found, Say, Step, StepSize};

/// Said under every table: what the player may do herself, and what not.
pub(super) const WHOSE: &str = "\
Discs, levers' mountings, rods, linkage and neck are your technician's: a disc that is bent by hand can break off.
Yours to do: tune, fit strings (two weeks before a regulation, a week at the least), see that felts and windings sit in place.
A harp's figures have no published bounds; 3, 5 and 10 cents are a proposal, and your technician's word comes before it.";

/// A sentence for what there is to say; `None` where nothing is worth a line.
pub(super) fn sentence(say: &Say, kind: HarpKind, naming: Naming) -> Option<String> {
    let levers = kind == HarpKind::Lever;
    Some(match say {
        Say::Set(position) => format!("{}, and pluck on.", moved(*position, levers)),
        Say::Taken(_) => return None,
        Say::AsBefore(string) if levers => format!(
            "{} sounds as before: is its lever where it should be? Pluck it again; then it is taken as it is.",
            naming.string(*string)
        ),
        Say::AsBefore(string) => format!(
            "{} sounds as before: is the {} pedal where it should be? Pluck it again; then it is taken as it is.",
            naming.string(*string),
            naming.language.name(pitch::SpelledPitch {
                letter: string.letter,
                alter: 0,
                octave: 4
            })
        ),
        Say::Far(string, cents) => format!(
            "{} is {} cents off, which is no step: is it the right string? If so, tune it first, or say skip.",
            naming.string(*string),
            signed(*cents)
        ),
        Say::NotAsked(string) => format!("{} is not asked for here.", naming.string(*string)),
        Say::Done => format!(
            "That is all of it, and {}.",
            if levers {
                "all levers are off"
            } else {
                "all pedals are up"
            }
        ),
    })
}

fn moved(position: Position, levers: bool) -> &'static str {
    match (position, levers) {
        (Position::Open, false) => "All pedals up again",
        (Position::Natural, false) => "All pedals to the middle",
        (Position::Sharp, false) => "All pedals down",
        (Position::Open, true) => "All levers off again",
        (Position::Natural | Position::Sharp, true) => "All levers on",
    }
}

/// What was found at a step, and what to make of it; `None` where there is nothing to say.
pub(super) fn finding(step: Step, size: &StepSize, found: &Found) -> Option<String> {
    let at = step.as_str();
    let error = signed(size.error_cents);
    Some(match found.cause? {
        Cause::Pedal => match found.beside_the_letter_cents {
            Some(_) => format!("{at} {error}: the whole letter, its pedal"),
            None => format!("{at} {error}: its pedal"),
        },
        Cause::Disc => format!("{at} {error}: this disc"),
        Cause::Lever => format!("{at} {error}: this lever"),
        Cause::Own => {
            format!("{at}: the string comes back elsewhere of itself; nothing is said of its disc")
        }
        Cause::PedalNotMoved => format!("{at}: no step on the whole letter: was the pedal moved?"),
        Cause::NoStep => format!("{at}: no step: does its disc or lever reach it?"),
    })
}
