//! English.

use pitch::Alteration;

use super::Words;
use crate::{Age, Caution, Mark, Mended, Settling, Shelf, State, StepKind, Time};

pub(super) const WORDS: Words = Words {
    slips: |string, s| {
        format!(
            "{string} sank {} times of the last {}, by {} cents (±{}) more than its neighbours, which moved by {}: does its pin slip?",
            s.times, s.of, s.cents, s.u95, s.neighbours
        )
    },
    wide: |string, times| {
        format!(
            "Readings of {string} are {times} times as wide as they were, and its neighbours' are not: is the string false?"
        )
    },
    strays: |string, times| {
        format!("{string} strays up and down {times} times as far as it did: is the string false?")
    },
    rings_shorter: |string, times| {
        format!(
            "{string} rings {times} times as long as it did, and its neighbours as long as ever: is it worn, or false?"
        )
    },
    softer: |string, db| {
        format!(
            "{string} sounds {db} dB softer than it did, and its neighbours do not: is it worn, or does something touch it?"
        )
    },
    stiffness: |string, times| {
        format!(
            "The stiffness of {string} is {times} times what it was, with no new string on: is it worn uneven, or false?"
        )
    },
    other_string: |string, times, less| {
        let how = if less { "too thin" } else { "too thick" };
        format!(
            "The new {string} is {times} times as stiff as the string before it: is it {how}, of another gauge or another octave?"
        )
    },
    gauge: |string, written, harp| {
        format!(
            "{string} was written down as {written} mm, the harp's file says {harp} mm: which is right?"
        )
    },
    slower: |string, days, before, speed| {
        format!(
            "{string} has been on for {days} days and moves by {speed} cents a day still; the string before it held after {before}: do pin and knot hold?"
        )
    },
    limits: "Each string is held against its own past and its neighbours. What cannot be told so: a neighbouring gauge, and a string that was always false.",
    age: |age, years| match age {
        Age::Days(days) => format!("{} years old", years(days)),
        Age::AtLeast(days) => format!("at least {} years old", years(days)),
        Age::Unknown => "age not known".to_owned(),
        Age::NoString => "no string".to_owned(),
    },
    state: |state| match state {
        State::NotYet => "not due",
        State::NotKnown => "not known whether it is due",
        State::MayBe => "may be due, by its looks and its sound",
        State::Due => "due",
        State::Missing => "to be put on",
    },
    mark: |mark| match mark {
        Mark::Guides => "as several guides have it",
        Mark::CommonPractice => "common practice, no source",
        Mark::OneGuess => "one author's guess",
        Mark::FromMemory => "from memory, no source",
        Mark::Proposal => "our proposal",
        Mark::Hers => "as you set it",
    },
    again: "It breaks again and again: is anything sharp-edged at pin, disc or bridge pin?",
    position: |position| match position {
        Alteration::Flat => "flat",
        Alteration::Natural => "natural",
        Alteration::Sharp => "sharp",
    },
    pedal: |letter| format!("The {letter} pedal"),
    disc: |string| format!("A disc of {string}"),
    lever: |string| format!("The lever of {string}"),
    found: |what, cents, mended| format!("{what}: {cents} cents; {mended}"),
    mended: |mended| match mended {
        Mended::Open => "for the technician",
        Mended::Mended => "mended",
        Mended::Still => "found again after the visit",
        Mended::New => "not found before the visit",
        Mended::CannotSay => "not checked surely enough after the visit",
    },
    settling: |settling, figure, u95| match *settling {
        Settling::NotNew => "When it was put on is not known.".to_owned(),
        Settling::TooFew { moves } => {
            format!("Too few readings to say ({moves}); tune it several times a day.")
        }
        Settling::Moving { .. } => {
            format!("Moves by {figure} cents a day (±{u95}); tune it several times a day.")
        }
        Settling::Settled { .. } => format!("Holds since day {figure}."),
    },
    own_spare: "its own spare",
    thinner: |made_for, other_colour| match other_colour {
        false => format!("{made_for}, thinner, tuned down"),
        true => format!("{made_for}, thinner, tuned down, of another colour"),
    },
    no_cover: "nothing: to be ordered",
    shelf: |shelf| match shelf {
        Shelf::Best => "fresh (one author's guess)",
        Shelf::NotKnown => "how long it keeps is not known",
        Shelf::Older => "past its best (one author's guess)",
        Shelf::PassOn => "better passed on now (one author's guess)",
        Shelf::Retire => "too old (one author's guess)",
    },
    mixed: |[young, young_years], [old, old_years]| {
        format!(
            "Mixed ages in one octave sound uneven: {young} is {young_years} years old, {old} at least {old_years}."
        )
    },
    time: |time| match time {
        Time::Enough => "Time enough: strings on two weeks before the regulation are settled.",
        Time::Late => {
            "Late: two weeks before the regulation would be better, one week is the least."
        }
        Time::TooLate => {
            "Too late for new strings: they would not be settled when the technician comes."
        }
    },
    step: |step| match step {
        StepKind::PedalsUp => "All pedals up, or all levers off.",
        StepKind::TakeOff => {
            "Let the old string down with the key and take it off, ends and knot too."
        }
        StepKind::RightString => "Read the packet: the right letter, and the right octave?",
        StepKind::Knot => "Knot it with an anchor, or seat the wire's own end, at the soundboard.",
        StepKind::Wind => "Through the pin, and wind: coils side by side, not against the neck.",
        StepKind::ToneBelow => "Up to a tone below. Wait.",
        StepKind::SemitoneBelow => "Up to a semitone below. Wait.",
        StepKind::ToPitch => "Up to pitch. Wait.",
        StepKind::Again => "To pitch again.",
        StepKind::Cut => "Hold the tail and cut it close.",
        StepKind::Write => "Write it into the diary: string, material, gauge.",
        StepKind::Often => "Tune it several times a day until it holds.",
    },
    caution: |caution| match caution {
        Caution::Eyes => "Wear glasses and keep your face out of the string's plane.",
        Caution::BreakingString => {
            "It can break on the way up: turn slowly, and stop where it feels wrong."
        }
        Caution::Hands => "Ends of wires scratch; rest hands and wrists on a long job.",
        Caution::Standing => "The harp upright on its feet, you on the floor or a stable low step.",
        Caution::OneAtATime => "One string at a time: never let all of them down together.",
        Caution::PinIsTheTechnicians => {
            "Never hammer a pin in; a loose or broken pin is your technician's."
        }
    },
};
