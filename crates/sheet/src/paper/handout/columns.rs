//! Sections laid into two columns of a page.

use super::sections::{Line, Section};
use crate::paper::cut::Cut;
use crate::paper::face::Face;
use crate::paper::flow::Block;
use crate::paper::ink::Ink;
use crate::paper::wrap::wrap;

/// The size of what is read.
pub(super) const SIZE: f64 = 9.6;
/// The size of what is said aside.
const ASIDE: f64 = 9.2;
/// From one line to the next.
const LEAD: f64 = 11.8;
const HEAD: f64 = 11.2;
/// Between two columns.
pub(super) const GUTTER: f64 = 22.0;
/// What stands before an item, and how far the item is set in.
const INDENT: f64 = 12.0;
/// Between sections, and between lines that are apart.
const APART: (f64, f64) = (11.0, 1.9);
/// The height of a line to write on.
const TO_WRITE: f64 = 18.0;
/// The least that is left to write on behind a word.
const LEAST: f64 = 90.0;

/// What a section that is parted by the columns costs, in points of their height.
pub(super) const PARTED: f64 = 36.0;

/// A line of a section, or its head, from its own corner; nothing parts it.
struct Piece {
    ink: Ink,
    height: f64,
    /// Room above it, but at the top of a column.
    above: f64,
    /// What it costs to begin a column with it; `None` where that is never done.
    parts: Option<f64>,
}

/// Sections in their order, in two columns as even as they can be; a section that goes on in the second costs `parted`.
pub(super) fn columns(sections: &[Section], parted: f64, cut: &Cut) -> Block {
    let width = (cut.measure() - GUTTER) / 2.0;
    let laid: Vec<Piece> = sections
        .iter()
        .flat_map(|one| pieces(one, parted, width))
        .collect();
    let higher = |at: usize| tall(&laid[..at]).max(tall(&laid[at..]));
    let cost = |at: usize| Some(higher(at) + laid.get(at).map_or(Some(0.0), |one| one.parts)?);
    let places = (0..=laid.len()).filter_map(|at| Some((at, cost(at)?)));
    let best = places.min_by(|one, other| one.1.total_cmp(&other.1));
    let best = best.map_or(0, |(at, _)| at);
    let mut ink = Ink::default();
    for (column, x) in [
        (&laid[..best], cut.left),
        (&laid[best..], cut.left + width + GUTTER),
    ] {
        let mut y = 0.0;
        for (at, piece) in column.iter().enumerate() {
            y += if at == 0 { 0.0 } else { piece.above };
            ink.put(piece.ink.clone(), (x, y));
            y += piece.height;
        }
    }
    Block {
        ink,
        height: higher(best) + 0.3 * SIZE,
        above: 17.0,
        stays: false,
    }
}

fn tall(column: &[Piece]) -> f64 {
    let gaps = column.iter().skip(1).map(|piece| piece.above);
    column.iter().map(|piece| piece.height).sum::<f64>() + gaps.sum::<f64>()
}

fn pieces(section: &Section, parted: f64, width: f64) -> Vec<Piece> {
    let mut all = vec![Piece {
        above: APART.0 + 0.3 * SIZE,
        parts: Some(0.0),
        ..head(section.head, width)
    }];
    for (at, line) in section.lines.iter().enumerate() {
        let mut ink = Ink::default();
        let height = match line {
            Line::Item(text) => hanging("–", text, width, &mut ink),
            Line::Step(number, text) => hanging(&number.to_string(), text, width, &mut ink),
            Line::Aside(text) => aside(text, width, &mut ink),
            Line::Blank(word) => blank(word, width, &mut ink),
        };
        let together = at == 0 || matches!(line, Line::Aside(_) | Line::Blank(_));
        all.push(Piece {
            ink,
            height,
            above: APART.1,
            parts: (!together).then_some(parted),
        });
    }
    all
}

fn head(text: &str, width: f64) -> Piece {
    let mut ink = Ink::default();
    let mut y = 0.0;
    for line in wrap(text, Face::Semibold, HEAD, width) {
        y += HEAD * 0.9;
        ink.text((0.0, y), HEAD, Face::Semibold, &line);
    }
    y += 4.5;
    ink.line((0.0, y), (width, y), 0.4);
    Piece {
        ink,
        height: y + 2.0,
        above: 0.0,
        parts: None,
    }
}

fn aside(text: &str, width: f64, ink: &mut Ink) -> f64 {
    let mut y = 2.0;
    for line in wrap(text, Face::Italic, ASIDE, width) {
        y += LEAD - 0.4;
        ink.text((0.0, y), ASIDE, Face::Italic, &line);
    }
    y
}

/// Text set in behind what stands before it.
fn hanging(mark: &str, text: &str, width: f64, ink: &mut Ink) -> f64 {
    let mut y = 0.0;
    let face = if mark == "–" {
        Face::Text
    } else {
        Face::Semibold
    };
    for (at, line) in wrap(text, Face::Text, SIZE, width - INDENT)
        .iter()
        .enumerate()
    {
        y += LEAD;
        if at == 0 {
            ink.text((0.0, y), SIZE, face, mark);
        }
        ink.text((INDENT, y), SIZE, Face::Text, line);
    }
    y
}

/// A word, and a rule to write on behind it, or below where the word is long.
fn blank(word: &str, width: f64, ink: &mut Ink) -> f64 {
    let mut y = 0.0;
    let mut end = 0.0;
    for line in wrap(word, Face::Italic, SIZE, width) {
        y += if end == 0.0 { TO_WRITE } else { LEAD };
        end = ink.text((0.0, y), SIZE, Face::Italic, &line);
    }
    if width - end < LEAST {
        (y, end) = (y + TO_WRITE, 0.0);
    }
    let from = if end == 0.0 { 0.0 } else { end + 6.0 };
    ink.line((from, y + 1.5), (width, y + 1.5), 0.4);
    y
}
