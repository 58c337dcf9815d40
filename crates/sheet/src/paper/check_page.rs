//! A regulation check for the technician: every string's steps in a table, and what was found of them.

use std::collections::BTreeMap;

use harp::StringName;
use pitch::{ReferencePitch, Tongue};
use tuning::regulation::{Regulated, Step, StepSize, Weight, finding, too_new, whose_work};

use super::cut::Cut;
use super::face::Face;
use super::flow::{Block, pages};
use super::ink::{Ink, Page};
use super::piece_page::small;
use super::words::words;
use super::wrap::wrap;
use crate::Style;

/// Where the columns end, in parts of the page's measure; the names of strings begin at its left.
const COLUMNS: [f64; 9] = [0.19, 0.33, 0.43, 0.51, 0.64, 0.74, 0.82, 0.92, 1.0];
/// The size of the table's print.
const SIZE: f64 = 9.5;

/// Ten columns stand beside one another no larger than this, in large print too.
const LARGEST: f64 = 1.15;

/// What is printed of a check.
#[derive(Clone, Debug, PartialEq)]
pub struct CheckSheet {
    /// The harp, as its owner calls it.
    pub harp: String,
    /// The reference pitch at which it was read.
    pub reference: ReferencePitch,
    /// The strings, from the bass up.
    pub strings: Vec<Regulated>,
    /// The errors of an earlier check, natural and sharp, in cents; empty where there was none.
    pub before: BTreeMap<StringName, [Option<f64>; 2]>,
}

/// The check's pages: the table first, the highest string on top, as a technician works; then what was found.
pub fn check_pages(check: &CheckSheet, style: &Style) -> Vec<Page> {
    let mut cut = Cut::of(style);
    cut.unit = cut.unit.min(LARGEST);
    let words = words(style.tongue);
    let mut blocks = vec![heading(check, style, &cut), heads(check, style, &cut)];
    blocks.extend(
        check
            .strings
            .iter()
            .rev()
            .map(|one| row(one, check, style, &cut)),
    );
    blocks.push(small(words.check_read, 8.0, 8.0, &cut));
    let found: Vec<Block> = check
        .strings
        .iter()
        .rev()
        .filter_map(|one| found(one, style, &cut))
        .collect();
    let is_unread = |one: &Regulated| one.natural.is_none() && one.sharp.is_none();
    if check.strings.iter().all(is_unread) {
        blocks.push(line(words.check_unread, Face::Text, 14.0, &cut));
    } else if found.is_empty() {
        blocks.push(line(words.check_nothing, Face::Text, 14.0, &cut));
    } else {
        let mut head = line(words.check_found, Face::Semibold, 16.0, &cut);
        head.stays = true;
        blocks.push(head);
        blocks.extend(found);
    }
    for (at, work) in whose_work(style.tongue).into_iter().enumerate() {
        blocks.push(small(work, 8.0, if at == 0 { 14.0 } else { 1.0 }, &cut));
    }
    pages(blocks, words.check, &cut)
}

fn heading(check: &CheckSheet, style: &Style, cut: &Cut) -> Block {
    let words = words(style.tongue);
    let mut ink = Ink::default();
    let middle = (cut.left + cut.right) / 2.0;
    let size = 22.0 * cut.title_unit;
    let mut y = size * 0.75;
    ink.centred((middle, y), size, Face::Text, words.check);
    let small = 11.0 * cut.title_unit;
    let reference = style.tongue.plain(check.reference.a4_hz());
    let under = format!("{}, A\u{a0}=\u{a0}{reference}\u{a0}Hz", check.harp);
    y += size * 0.4;
    for text in wrap(&under, Face::Italic, small, cut.measure()) {
        y += small * 1.3;
        ink.centred((middle, y), small, Face::Italic, &text);
    }
    Block {
        ink,
        height: y + small * 0.4,
        above: 0.0,
        stays: true,
    }
}

/// The columns that are shown, each with the place where it ends: those of an earlier check only where there was one.
fn shown(check: &CheckSheet) -> impl Iterator<Item = (usize, f64)> {
    let earlier = !check.before.is_empty();
    let all = COLUMNS.into_iter().enumerate();
    all.filter(move |(at, _)| earlier || !matches!(at, 2 | 5))
}

fn heads(check: &CheckSheet, style: &Style, cut: &Cut) -> Block {
    let heads = words(style.tongue).check_heads;
    let size = SIZE * cut.unit;
    let mut ink = Ink::default();
    ink.text((cut.left, size), size, Face::Italic, heads[0]);
    for (at, end) in shown(check) {
        let end = cut.left + end * cut.measure();
        if let Some(head) = heads.get(at + 1) {
            ink.ending((end, size), size, Face::Italic, head);
        }
    }
    let y = size * 1.5;
    ink.line((cut.left, y), (cut.right, y), 0.5 * cut.unit);
    Block {
        ink,
        height: y + 0.2 * size,
        above: 10.0 * cut.unit,
        stays: true,
    }
}

fn row(one: &Regulated, check: &CheckSheet, style: &Style, cut: &Cut) -> Block {
    let size = SIZE * cut.unit;
    let mut ink = Ink::default();
    ink.text(
        (cut.left, size),
        size,
        Face::Text,
        &style.naming.string(one.string),
    );
    let signed =
        |cents: Option<f64>| cents.map_or(String::new(), |cents| style.tongue.signed(cents));
    let error = |step: Option<&StepSize>| signed(step.map(|step| step.error_cents));
    let width = |step: Option<&StepSize>| {
        let width = step.map(|step| style.tongue.signed(step.u95_cents));
        width.map_or(String::new(), |width| width.replace('+', "±\u{2009}"))
    };
    let [natural_was, sharp_was] = check.before.get(&one.string).copied().unwrap_or_default();
    let own = one
        .own_cents
        .map(|own| style.tongue.signed(own).replace('+', ""));
    let figures = [
        signed(one.open_cents),
        error(one.natural.as_ref()),
        signed(natural_was),
        width(one.natural.as_ref()),
        error(one.sharp.as_ref()),
        signed(sharp_was),
        width(one.sharp.as_ref()),
        error(one.sum.as_ref()),
        own.unwrap_or_default(),
    ];
    for (at, end) in shown(check) {
        let end = cut.left + end * cut.measure();
        let face = match at {
            1 | 4 => Face::Semibold,
            _ => Face::Text,
        };
        ink.ending((end, size), size, face, &figures[at]);
        let step = [(1, Step::Natural), (4, Step::Sharp)];
        let step = step.into_iter().find(|(column, _)| *column == at);
        if step.is_some_and(|(_, step)| is_out(one, step)) {
            let width = face.width(&figures[at], size);
            let centre = (end - width / 2.0, size * 0.68);
            ink.ring(
                centre,
                (width / 2.0 + 0.35 * size, size * 0.62),
                0.6 * cut.unit,
            );
        }
    }
    Block {
        ink,
        height: size * 1.38,
        above: 0.0,
        stays: false,
    }
}

fn is_out(one: &Regulated, step: Step) -> bool {
    let found = one.found.get(&step);
    found.is_some_and(|found| matches!(found.weight, Weight::Report | Weight::Urgent))
}

/// What was found of a string, in words; empty where there is nothing to say.
pub fn found_words(one: &Regulated, tongue: Tongue) -> String {
    if one.new {
        return too_new(tongue).to_owned();
    }
    let steps = one.found.iter();
    let told: Vec<String> = steps
        .filter_map(|(&step, found)| finding(step, one.step(step)?, found, tongue))
        .collect();
    told.join("; ")
}

fn found(one: &Regulated, style: &Style, cut: &Cut) -> Option<Block> {
    let told = found_words(one, style.tongue);
    let size = SIZE * cut.unit;
    let indent = 34.0 * cut.unit;
    let mut ink = Ink::default();
    ink.text(
        (cut.left, size),
        size,
        Face::Semibold,
        &style.naming.string(one.string),
    );
    let mut y = 0.0;
    for text in wrap(&told, Face::Text, size, cut.measure() - indent) {
        y += if y == 0.0 { size } else { size * 1.3 };
        ink.text((cut.left + indent, y), size, Face::Text, &text);
    }
    (!told.is_empty()).then_some(Block {
        ink,
        height: y + 0.35 * size,
        above: 0.0,
        stays: false,
    })
}

fn line(text: &str, face: Face, above: f64, cut: &Cut) -> Block {
    let size = 11.0 * cut.unit;
    let mut ink = Ink::default();
    let mut y = 0.0;
    for text in wrap(text, face, size, cut.measure()) {
        y += if y == 0.0 { size } else { size * 1.3 };
        ink.text((cut.left, y), size, face, &text);
    }
    Block {
        ink,
        height: y + 0.4 * size,
        above: above * cut.unit,
        stays: false,
    }
}
