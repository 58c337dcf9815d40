//! A handout's pages: the harp and how it is tuned on the first, strings that break and whom to call on the second, and
//! what is left of it to write on.

use super::Handout;
use super::columns::{GUTTER, PARTED, columns};
use super::grid::grid;
use super::sections::{Section, keeping, tuning};
use super::strings::strings;
use super::words::{Words, words};
use crate::paper::cut::Cut;
use crate::paper::face::Face;
use crate::paper::flow::{Block, pages};
use crate::paper::ink::{Ink, Page};
use crate::paper::wrap::wrap;
use crate::{Print, Style};

/// How wide the harp is drawn, of the measure.
const HARP: f64 = 0.42;
/// From one line for notes to the next.
const NOTES: f64 = 22.0;
/// Lines for notes: the least, and more than a page holds.
const LINES: (usize, usize) = (3, 40);

/// A handout on two pages, in usual print: that is large enough to read by the harp.
pub fn handout_pages(handout: &Handout, style: &Style) -> Vec<Page> {
    let cut = cut(style);
    let words = words(style.tongue);
    let top = vec![
        heading(handout, words, style, &cut),
        own(handout, style, &cut),
    ];
    let taken: f64 = top.iter().map(|block| block.above + block.height).sum();
    let room = cut.bottom - cut.top - taken;
    let mut first = tuning(handout, style);
    let fits = |some: &[Section]| {
        let ways = [PARTED, 0.0].map(|parted| columns(some, parted, &cut));
        ways.into_iter()
            .find(|block| block.above + block.height <= room)
    };
    let many = (1..=first.len()).rev();
    let here = many
        .filter_map(|many| Some((many, fits(&first[..many])?)))
        .next();
    let mut rest = first.split_off(here.as_ref().map_or(0, |(many, _)| *many));
    rest.append(&mut keeping(handout, style));
    let mut blocks = top;
    blocks.extend(here.map(|(_, block)| block));
    blocks.push(columns(&rest, PARTED, &cut));
    let title = match handout.student.trim() {
        "" => words.title.to_owned(),
        name => format!("{}, {}", words.title, (words.student)(name)),
    };
    let laid = |lines: usize| {
        let notes = notes(lines, words, &cut);
        let all = blocks.iter().cloned().chain([notes]);
        pages(all.collect(), &title, &cut)
    };
    let least = laid(LINES.0);
    let more = (LINES.0 + 1..=LINES.1).rev().map(laid);
    let mut filled = more.filter(|pages| pages.len() == least.len());
    filled.next().unwrap_or(least)
}

/// Narrower margins than a part's, 17 mm at the sides: nothing is pencilled beside it.
fn cut(style: &Style) -> Cut {
    let usual = Cut::of(&Style {
        print: Print::Usual,
        ..*style
    });
    Cut {
        left: usual.left - 14.0,
        right: usual.right + 14.0,
        top: 46.0,
        bottom: usual.bottom + 8.0,
        ..usual
    }
}

fn heading(handout: &Handout, words: &Words, style: &Style, cut: &Cut) -> Block {
    let mut ink = Ink::default();
    let middle = (cut.left + cut.right) / 2.0;
    let size = 23.0;
    let mut y = size * 0.75;
    ink.centred((middle, y), size, Face::Text, words.title);
    let small = 11.0;
    y += 4.0;
    let mut under = Vec::new();
    if !handout.student.trim().is_empty() {
        under.push((words.student)(handout.student.trim()));
    }
    let kind = (words.kind[usize::from(handout.lever)])(handout.strings.len());
    let a4 = style.tongue.plain(handout.reference.a4_hz());
    let name = match handout.harp.trim() {
        "" => String::new(),
        name => format!("{name}: "),
    };
    under.push(format!(
        "{name}{kind}, {}\u{a0}=\u{a0}{a4}\u{a0}Hz",
        words.a
    ));
    for text in under {
        for line in wrap(&text, Face::Italic, small, cut.measure()) {
            y += small * 1.35;
            ink.centred((middle, y), small, Face::Italic, &line);
        }
    }
    Block {
        ink,
        height: y + small * 0.4,
        above: 0.0,
        stays: true,
    }
}

/// Her own harp: drawn on the left, its strings in a table on the right.
fn own(handout: &Handout, style: &Style, cut: &Cut) -> Block {
    let wide = HARP * cut.measure();
    let (table, height) = grid(handout, cut.measure() - wide - GUTTER, style);
    let mut ink = strings(handout, (wide, height), style);
    let drawing = std::mem::take(&mut ink);
    ink.put(drawing, (cut.left, 0.0));
    ink.put(table, (cut.left + wide + GUTTER, 0.0));
    Block {
        ink,
        height,
        above: 13.0,
        stays: true,
    }
}

/// Lines to write on.
fn notes(lines: usize, words: &Words, cut: &Cut) -> Block {
    let mut ink = Ink::default();
    let size = 11.2;
    let mut y = size * 0.9;
    ink.text((cut.left, y), size, Face::Semibold, words.notes);
    for _ in 0..lines {
        y += NOTES;
        ink.line((cut.left, y), (cut.right, y), 0.4);
    }
    Block {
        ink,
        height: y + 1.0,
        above: 15.0,
        stays: false,
    }
}
