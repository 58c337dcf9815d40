//! What a handout says, section by section.

use std::collections::BTreeSet;

use harp::StringName;
use keep::{Caution, StepKind};
use pitch::{Letter, SpelledPitch, Tongue, harp_octave};
use tuning::round::Order;

use super::words::{Words, words};
use super::{Handout, HandoutString};
use crate::Style;

/// A section: its head, and what stands below it.
pub(super) struct Section {
    pub(super) head: &'static str,
    pub(super) lines: Vec<Line>,
}

/// What can stand in a section.
pub(super) enum Line {
    /// One of several things.
    Item(String),
    /// A step, numbered from 1.
    Step(usize, String),
    /// In small italics.
    Aside(String),
    /// A rule to write on, behind a word.
    Blank(&'static str),
}

/// Those of the first page: how one tunes.
pub(super) fn tuning(handout: &Handout, style: &Style) -> Vec<Section> {
    let words = words(style.tongue);
    let a4 = style.tongue.plain(handout.reference.a4_hz());
    let mut key = items([words.pin, words.way]);
    key.push(Line::Blank(words.way_here));
    vec![
        Section {
            head: words.before,
            lines: vec![
                item(words.of(words.open, handout.lever)),
                Line::Item((words.the_a)(&a4)),
                item(words.quiet),
            ],
        },
        Section {
            head: words.round,
            lines: vec![Line::Item(order(handout, words, style)), item(words.again)],
        },
        section(words.daily, words.every_day),
        Section {
            head: words.key,
            lines: key,
        },
        section(words.turns, words.small),
    ]
}

/// Those of the second: what one does when a string breaks, with whom.
pub(super) fn keeping(handout: &Handout, style: &Style) -> Vec<Section> {
    let words = words(style.tongue);
    let mut breaks = items(words.when_it_breaks);
    breaks.push(item(words.of(words.where_it_broke, handout.lever)));
    breaks.extend(items(words.then));
    let (steps, cautions) = new_string(handout, words, style.tongue);
    let mut care = items(cautions.into_iter().map(words.caution));
    care.extend(items(words.more_care));
    vec![
        Section {
            head: words.breaks,
            lines: breaks,
        },
        Section {
            head: words.new,
            lines: steps,
        },
        Section {
            head: words.care,
            lines: care,
        },
        Section {
            head: words.call,
            lines: [words.teacher, words.technician]
                .into_iter()
                .flat_map(|who| [Line::Blank(who), Line::Blank(words.telephone)])
                .collect(),
        },
    ]
}

fn item(text: &str) -> Line {
    Line::Item(text.to_owned())
}

fn items(texts: impl IntoIterator<Item = &'static str>) -> Vec<Line> {
    texts.into_iter().map(item).collect()
}

fn section(head: &'static str, texts: impl IntoIterator<Item = &'static str>) -> Section {
    Section {
        head,
        lines: items(texts),
    }
}

/// The steps as the keeper of strings has them, those on the way up in one, and all their cautions.
fn new_string(handout: &Handout, words: &Words, tongue: Tongue) -> (Vec<Line>, BTreeSet<Caution>) {
    let steps = &handout.steps;
    let cautions = steps.iter().flat_map(|step| step.cautions).copied();
    let waits = steps.iter().find(|step| step.kind == StepKind::ToneBelow);
    let minutes = tongue.plain(waits.map_or(0.0, |step| step.wait_minutes));
    let kinds: BTreeSet<StepKind> = steps.iter().map(|step| step.kind).collect();
    let told = kinds
        .into_iter()
        .filter_map(|kind| (words.step)(kind, handout.lever, &minutes));
    let mut lines: Vec<Line> = (1..)
        .zip(told)
        .map(|(number, step)| Line::Step(number, step))
        .collect();
    lines.push(Line::Aside(words.other_ways.to_owned()));
    (lines, cautions.collect())
}

/// Her order, in words.
fn order(handout: &Handout, words: &Words, style: &Style) -> String {
    let all: Vec<StringName> = handout.strings.iter().map(|string| string.name).collect();
    let arranged = handout.order.arrange(&all);
    let name = |string: &StringName| style.naming.string(*string);
    let ends = |strings: &[StringName]| {
        [strings.first(), strings.last()].map(|end| end.map(name).unwrap_or_default())
    };
    let middle: Vec<StringName> = all.iter().copied().filter(in_middle).collect();
    let [lowest, highest] = ends(&all);
    match &handout.order {
        Order::FromMiddle(_) => {
            let up = arranged.windows(2).position(|pair| pair[0] < pair[1]);
            match (arranged.first(), up) {
                (Some(first), Some(at)) if *first != all[0] => {
                    (words.from_middle)([&name(first), &lowest, &name(&arranged[at + 1]), &highest])
                }
                _ => (words.from_bass)([&lowest, &highest]),
            }
        }
        Order::MiddleOctave if !middle.is_empty() => {
            (words.middle_octave)(ends(&middle).each_ref().map(String::as_str))
        }
        Order::Octaves if !middle.is_empty() => {
            (words.octave_by_octave)(ends(&middle).each_ref().map(String::as_str))
        }
        Order::FromBass | Order::MiddleOctave | Order::Octaves => {
            (words.from_bass)([&lowest, &highest])
        }
        Order::Letters => {
            let ends = [arranged.first(), arranged.last()];
            let ends = ends.map(|end| end.map_or(String::new(), |end| letter(end.letter, style)));
            (words.letters)(ends.each_ref().map(String::as_str))
        }
        Order::List(list) => {
            let hers = arranged.iter().filter(|string| list.contains(string));
            (words.list)(&hers.map(name).collect::<Vec<_>>().join(", "))
        }
    }
}

/// Whether a string is of the harp's octave of middle C.
fn in_middle(string: &StringName) -> bool {
    harp_octave(string.letter, string.octave) == 4
}

/// A bare letter as she names it.
pub(super) fn letter(letter: Letter, style: &Style) -> String {
    let natural = SpelledPitch {
        letter,
        alter: 0,
        octave: 4,
    };
    style.naming.language.name(natural)
}

/// Whether a string's place must be told.
pub(super) fn is_still(string: &HandoutString) -> bool {
    !string.moves
}
