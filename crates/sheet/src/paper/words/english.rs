//! English.

use pedals::{Because, LeverReason, Reason};

use super::Words;

pub(super) const ENGLISH: Words = Words {
    untitled: "Untitled",
    opening: "Opening pedals",
    by_key: "By key",
    set_to: |string, pitch| format!("{string} to {pitch}"),
    turned: |string, from, to| format!("{string} from {from} to {to}"),
    in_rest: |bar| format!("in the rest at bar {bar}"),
    before_movement: |name, set| format!("before {name}: {set}"),
    before: "Before this piece",
    whole_harp: |a4| format!("the whole harp to A\u{a0}=\u{a0}{a4}\u{a0}Hz"),
    nothing_turned: "nothing to turn",
    going_up: "Turning up on stage: in small steps, plucking after each, eyes out of the plane of the strings; ease down whatever goes past. An old wire, or one that has never stood so high, may break: whether it may go there, ask your technician beforehand.",
    no_changes: "No pedal moves.",
    no_flips: "No lever moves.",
    open_tuning: "Open tuning",
    other_open: |from, to| format!("the open strings from {from} to {to} by key"),
    levers_on: "Levers on",
    no_levers: "none",
    flipped: |strings, on| format!("{strings} {}", if on { "on" } else { "off" }),
    exposed: |strings| format!("Exposed: {strings}"),
    times: |times| format!("{} time", joined(times)),
    bar: "bar",
    beat: "beat",
    how_read: "The right foot stands above the line, the left below. Heavy figures are bars, light ones beats.",
    hands_read: "What the right hand flips stands above the line, the left hand's below, each string as it sounds then. Heavy figures are bars, light ones beats.",
    rings_between: "Ringed: elsewhere than the last piece left it.",
    rings: "Ringed: changed since the last setting shown.",
    remarks: [
        "Played on another string than written",
        "Cannot be had",
        "Otherwise than marked in the part",
        "To be known",
    ],
    other_string: |written, played| format!("{written} as {played}"),
    why: |reason| match reason {
        Reason::OutsideTheHarp => "the harp has no string for it",
        Reason::Broken => "what would sound it is broken",
        Reason::TunedByKey => {
            "only a string without discs could sound it, and that is tuned to something else"
        }
        Reason::AtOnce => "no setting holds all that is asked at once",
        Reason::TooFast => "the feet are not fast enough",
        Reason::TooDear => "it costs more than it is worth by your prices",
    },
    lever_why: |reason| match reason {
        LeverReason::OutsideTheHarp => "the harp has no string for it",
        LeverReason::OutOfReach => "no lever brings its string there in this open tuning",
        LeverReason::LeverElsewhere => {
            "its string is wanted with the lever the other way then, or too soon before or after"
        }
        LeverReason::HandsBusy => "no hand is free to flip the lever",
    },
    respell: |other| format!("respell it {other}"),
    play: |other| format!("play {other}"),
    leave_out: "leave it out",
    or: ", or ",
    otherwise: |planned, marked| format!("{planned}, marked {marked}"),
    because: |because| match because {
        Because::NotesThere => "a note there needs it",
        Because::Stuck => "the pedal is stuck",
        Because::Dearer => "the whole costs less so",
    },
    check: "Regulation check",
    check_heads: [
        "string",
        "open",
        "to natural",
        "before",
        "±",
        "to sharp",
        "before",
        "±",
        "both",
        "own",
    ],
    check_read: "Cents. Open: against its target. To natural and to sharp: beyond a semitone each, ± half of a 95 % interval; ringed where out. Both: beyond two semitones. Own: how far the string came back elsewhere in one and the same position.",
    check_found: "What was found",
    check_nothing: "No step is out.",
    check_unread: "No step was read.",
};

fn joined(times: &[u32]) -> String {
    let times: Vec<String> = times.iter().map(|&time| ordinal(time)).collect();
    times.join(" and ")
}

fn ordinal(number: u32) -> String {
    let ending = match (number % 10, number % 100) {
        (1, hundreds) if hundreds != 11 => "st",
        (2, hundreds) if hundreds != 12 => "nd",
        (3, hundreds) if hundreds != 13 => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_of_playing_are_ordinals() {
        assert_eq!((ENGLISH.times)(&[1]), "1st time");
        assert_eq!((ENGLISH.times)(&[2, 3]), "2nd and 3rd time");
        assert_eq!((ENGLISH.times)(&[11, 22]), "11th and 22nd time");
    }
}
