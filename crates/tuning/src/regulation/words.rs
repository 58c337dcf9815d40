//! What a check says, in sentences. A figure or a name comes in from outside; each language says the same with it.

mod english;
mod french;
mod german;

use harp::{HarpKind, Position};
use pitch::Tongue;

use super::{Cause, Found, Say, Step, StepSize};
use crate::round::Names;

/// One language; none can be forgotten in one of them. Switches between pedals and levers are `true` for levers.
struct Words {
    /// Where all pedals or levers are to be moved.
    set: fn(Position, bool) -> &'static str,
    /// A string, and its pedal's letter where it has one.
    as_before: fn(&str, Option<&str>) -> String,
    /// A string, and by how many cents it is off.
    far: fn(&str, &str) -> String,
    not_asked: fn(&str) -> String,
    done: fn(bool) -> &'static str,
    step: fn(Step) -> &'static str,
    /// The cause of an error.
    cause: fn(Cause) -> &'static str,
    new: &'static str,
    whose: [&'static str; 3],
    leave: &'static str,
}

fn words(tongue: Tongue) -> &'static Words {
    match tongue {
        Tongue::English => &english::WORDS,
        Tongue::German => &german::WORDS,
        Tongue::French => &french::WORDS,
    }
}

/// A sentence for what there is to say; `None` for a string that was simply taken.
///
/// ```
/// use harp::{HarpKind, Position};
/// use pitch::Tongue;
/// use tuning::regulation::{Say, sentence};
/// use tuning::round::Names;
/// let names = Names { string: &|s| s.harp_number(), letter: &|l| l.to_string(), pitch: &|p| p.to_string() };
/// let say = Say::Set(Position::Sharp);
/// let words = sentence(&say, HarpKind::Pedal, &names, Tongue::English);
/// assert_eq!(words.as_deref(), Some("All pedals down, then pluck on."));
/// ```
pub fn sentence(say: &Say, kind: HarpKind, names: &Names<'_>, tongue: Tongue) -> Option<String> {
    let words = words(tongue);
    let levers = kind == HarpKind::Lever;
    Some(match *say {
        Say::Set(position) => (words.set)(position, levers).to_owned(),
        Say::Taken(_) => return None,
        Say::AsBefore(string) => {
            let letter = (names.letter)(string.letter);
            let pedal = (!levers).then_some(letter.as_str());
            (words.as_before)(&(names.string)(string), pedal)
        }
        Say::Far(string, cents) => (words.far)(&(names.string)(string), &tongue.signed(cents)),
        Say::NotAsked(string) => (words.not_asked)(&(names.string)(string)),
        Say::Done => (words.done)(levers).to_owned(),
    })
}

/// What was found at a step, and what to make of it; `None` where there is nothing to say.
pub fn finding(step: Step, size: &StepSize, found: &Found, tongue: Tongue) -> Option<String> {
    let words = words(tongue);
    let cause = found.cause?;
    let (at, because) = ((words.step)(step), (words.cause)(cause));
    let error = tongue.signed(size.error_cents);
    Some(match cause {
        Cause::Pedal | Cause::Disc | Cause::Lever => format!("{at} {error}: {because}"),
        Cause::Own | Cause::PedalNotMoved | Cause::NoStep => format!("{at}: {because}"),
    })
}

/// What stands beside a string that is too new to be judged.
pub fn too_new(tongue: Tongue) -> &'static str {
    words(tongue).new
}

/// What is the technician's, what is the player's own, and what the bounds are worth: said under every table.
pub fn whose_work(tongue: Tongue) -> [&'static str; 3] {
    words(tongue).whose
}

/// How the harp is to be left when a check is broken off.
pub fn how_to_leave(tongue: Tongue) -> &'static str {
    words(tongue).leave
}
