//! English.

use keep::{Caution, StepKind};

use super::words::Words;

pub(super) const WORDS: Words = Words {
    title: "Tuning your harp",
    student: |name| format!("for {name}"),
    kind: [
        |strings| format!("Pedal harp, {strings} strings"),
        |strings| format!("Lever harp, {strings} strings"),
    ],
    a: "A",
    sounds: [
        "With all pedals up, the strings sound",
        "With all levers off, the strings sound",
    ],
    shows: "and a tuner shows",
    in_letters: "",
    colours: |c, f| format!("{c} strings are red, {f} strings black or blue."),
    octaves: |[e, f, c]| {
        format!(
            "Octaves are counted from the top, each from {e} down to {f}; middle {c} is 4{c}. The number beside a tuner’s letter \
             counts another way."
        )
    },
    unmoved: [
        "* No pedal moves it: it is set with the key.",
        "* It has no lever: it is set with the key.",
    ],
    flats: |flat, sharp| format!("Some tuners write flats: {flat} for {sharp}."),

    before: "Before you begin",
    open: [
        "All pedals up, and they stay up until the last string.",
        "All levers off, and they stay off until the last string.",
    ],
    the_a: |a4| {
        format!(
            "The tuner stands at A\u{a0}=\u{a0}{a4}\u{a0}Hz. If every string is off by the same amount, look at that first."
        )
    },
    quiet: "A quiet room, the tuner close by, both hands free.",

    round: "A round",
    from_middle: |[first, lowest, next, highest]| {
        format!(
            "Begin at {first} and go down, string by string, to {lowest}; then from {next} up to {highest}."
        )
    },
    middle_octave: |[first, last]| {
        format!(
            "First the middle octave, from {first} up to {last}; then the octaves below it, going down; then those above, going up."
        )
    },
    from_bass: |[lowest, highest]| {
        format!("From the lowest string, {lowest}, up to the highest, {highest}.")
    },
    letters: |[first, last]| {
        format!("All strings of one letter, from the bass up: {first} first, and so on to {last}.")
    },
    octave_by_octave: |[first, last]| {
        format!(
            "The middle octave from {first} up to {last}, and after each string its octaves: those below it, then those above."
        )
    },
    list: |strings| format!("{strings}; then the others, from the bass up."),
    again: "When you are through, go through once more: each string that comes up lets others down a little.",

    key: "The key",
    pin: "Follow the string up and over to its pin, and put the key right on. The pin that you turn is that of the string that you \
          pluck.",
    way: "Up is usually away from you, towards the column; some harps differ.",
    way_here: "On this harp, up is",

    turns: "Small turns",
    small: [
        "Pluck one string, not hard, with its neighbours held still. Wait a moment, then read.",
        "Turn by a hair, no more than a minute on a clock’s face, and pluck again.",
        "Come up to the pitch from below. Too high? Go under it, and come up.",
        "If the sound does not follow the key, stop: the key is on another pin. Never turn far.",
        "The lowest and highest strings may not be read: listen to the octave beside them.",
    ],

    daily: "Every day",
    every_day: [
        "Before you play: one octave, or all strings of one letter. The whole harp as often as you can.",
        "A harp that is kept in tune stays in tune.",
    ],

    breaks: "When a string breaks",
    when_it_breaks: [
        "Face and hands away first. Strings do break; leave the others as they are.",
        "Hold what hangs loose: the end of a wire scratches skin and wood.",
    ],
    where_it_broke: [
        "Write down which string it was, and where it broke: at the pin, at a disc, at the knot.",
        "Write down which string it was, and where it broke: at the pin, at the lever, at the knot.",
    ],
    then: [
        "Its spare has the same letter and octave. In need, the next thinner string, tuned lower; never a thicker one.",
        "No spare, or not sure? Play without it, and ask your teacher.",
        "If it breaks again and again in one place, ask the technician.",
    ],

    new: "A new string",
    step: |step, lever, minutes| {
        let told = match step {
            StepKind::PedalsUp if lever => "All levers off.",
            StepKind::PedalsUp => "All pedals up.",
            StepKind::TakeOff => {
                "Let the old string down with the key; take it off, ends and knot too."
            }
            StepKind::RightString => "Read the packet: the right letter, the right octave?",
            StepKind::Knot => "Knot it with its anchor; a wire: seat its own end.",
            StepKind::Wind => "Through the pin; coils side by side, clear of the neck.",
            StepKind::ToneBelow => {
                return Some(format!(
                    "Up to a whole tone below, and wait {minutes}\u{a0}minutes; to a semitone below, and wait; to pitch, and wait; to pitch again."
                ));
            }
            StepKind::SemitoneBelow | StepKind::ToPitch | StepKind::Again => return None,
            StepKind::Cut => "Hold the tail, and cut it close.",
            StepKind::Write => "Write down the day, the string, and what it is made of.",
            StepKind::Often => "Tune it several times a day until it holds.",
        };
        Some(told.to_owned())
    },
    other_ways: "The waits are one workshop’s. Where your teacher or your harp’s maker does it another way, do that.",

    care: "Take care",
    caution: |caution| match caution {
        Caution::Eyes => {
            "Glasses on, and your face out of the plane of the strings: a string or a wire’s end can spring."
        }
        Caution::BreakingString => {
            "A string can break on its way up: turn slowly, and stop where it feels wrong."
        }
        Caution::Hands => "Ends of wires scratch. Rest hands and wrists on a long job.",
        Caution::Standing => {
            "The harp upright on its feet; you on the floor, or on a low step that does not move."
        }
        Caution::OneAtATime => "One string at a time: never let all of them down together.",
        Caution::PinIsTheTechnicians => {
            "Never hammer a pin in; a loose or broken pin is the technician’s."
        }
    },
    more_care: [
        "Never climb while the harp leans, and nobody leans on it: a harp tips over.",
        "Elbow close to you, and the key’s handle easy to hold. If wrist or shoulder hurts, stop.",
        "A child tunes and puts strings on with an adult beside.",
        "What you cannot explain, leave to a qualified harp technician.",
    ],

    call: "Whom to call",
    teacher: "Teacher",
    technician: "Harp technician",
    telephone: "Telephone",

    notes: "From your teacher",
};
