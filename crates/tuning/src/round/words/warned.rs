//! Sentences of the warnings. Each gives its reason; none but a stop gives an order.

use pitch::{Alteration, signed};

use super::{Names, high_or_low, listed};

use crate::round::{Limit, Warning};

pub(super) fn sentence(warning: &Warning, names: &Names) -> String {
    let name = |s: &harp::StringName| (names.string)(*s);
    match warning {
        Warning::PedalUp {
            letter,
            semitones,
            position,
            strings,
        } => {
            let letter = (names.letter)(*letter);
            let step = plural(*semitones as usize, "semitone", "tone");
            let place = if *position == Alteration::Flat {
                "up"
            } else {
                "where you said"
            };
            let (list, sound) = (
                listed(strings, names),
                plural(strings.len(), "sounds", "sound"),
            );
            format!(
                "Is the {letter} pedal {place}? {list} {sound} a {step} high. Look before you turn any pin."
            )
        }
        Warning::LeverOff { string } => {
            format!(
                "{}: a semitone high. Is its lever off? Look before you turn the pin.",
                name(string)
            )
        }
        Warning::FoundHigh { string, off_cents } => format!(
            "{}: {}. Is it where you said, pedal, lever or pitch? Look, then pluck it again.",
            name(string),
            high_or_low(*off_cents)
        ),
        Warning::KeyElsewhere { string, plucks } => format!(
            "{}: {plucks} plucks and no change. Is the key on another pin? Follow the string up and over to its own.",
            name(string)
        ),
        Warning::OctaveHigh { expected, heard_as } => format!(
            "That sounded as {}. If it was {}, it was heard an octave high: pluck it nearer the middle, and alone.",
            name(heard_as),
            name(expected)
        ),
        Warning::Reference {
            off_cents,
            a4_hz,
            strings,
        } => format!(
            "All {strings} so far are off by {} cents, as on a harp tuned to {a4_hz:.0}. Is the A right?",
            signed(*off_cents)
        ),
        Warning::AnotherMoves {
            expected,
            moving,
            by_cents,
        } => format!(
            "Stop: {} has moved by {} cents, and {} was to be turned. The key is on the wrong pin.",
            name(moving),
            signed(*by_cents),
            name(expected)
        ),
        Warning::OverPull {
            string,
            off_cents,
            limit,
        } => {
            let passed = match limit {
                Limit::AboveTarget(_) => "",
                Limit::HighestKnown(_) => ", above all that is known of it",
            };
            format!(
                "Stop. {}: {}{passed}. Ease it down, and keep your eyes away from the string.",
                name(string),
                high_or_low(*off_cents)
            )
        }
    }
}

fn plural(count: usize, one: &'static str, many: &'static str) -> &'static str {
    if count == 1 { one } else { many }
}
