//! The pages of one piece: heading, opening pedals, changes bar by bar, what else must be known.

use super::bar_line::lines;
use super::by_key::set_to;
use super::cut::Cut;
use super::diagram::diagram;
use super::face::Face;
use super::flow::{Block, pages};
use super::ink::{Ink, Page};
use super::lever_opening;
use super::remarks::remarks;
use super::words::words;
use super::wrap::wrap;
use crate::{MovementSheet, PieceSheet, Style};

/// A piece on as many pages as it takes, at least one. A bar's changes are never split between two pages, unless
/// they fill more than one.
pub fn piece_pages(piece: &PieceSheet, style: &Style) -> Vec<Page> {
    let cut = Cut::of(style);
    let mut blocks = vec![heading(piece, style, &cut)];
    let several = piece.movements.len() > 1;
    for movement in &piece.movements {
        blocks.push(opening(movement, several, style, &cut));
        let lines = lines(movement, style, &cut);
        if lines.is_empty() {
            let words = words(style.tongue);
            let still = if movement.levers.is_some() {
                words.no_flips
            } else {
                words.no_changes
            };
            blocks.push(small(still, 10.0, 14.0, &cut));
        }
        blocks.extend(lines);
    }
    let moves =
        |movement: &MovementSheet| !movement.bars.is_empty() || !movement.landmarks.is_empty();
    let read = piece
        .movements
        .iter()
        .any(moves)
        .then(|| how_read(piece, style, &cut));
    let known = remarks(&piece.remarks, style, &cut);
    let laid = |read: Option<Block>| {
        let all = blocks
            .iter()
            .cloned()
            .chain(read)
            .chain(known.iter().cloned());
        pages(all.collect(), title(piece, style), &cut)
    };
    let without = laid(None);
    match read.map(|read| laid(Some(read))) {
        // no page is turned for how the others are read
        Some(with) if with.len() == without.len() => with,
        _ => without,
    }
}

/// A title that is never nothing.
pub(crate) fn title<'a>(piece: &'a PieceSheet, style: &Style) -> &'a str {
    match piece.title.trim() {
        "" => words(style.tongue).untitled,
        title => title,
    }
}

/// The title in the middle, the harp on the left, the composer on the right: as over a printed part.
fn heading(piece: &PieceSheet, style: &Style, cut: &Cut) -> Block {
    let mut ink = Ink::default();
    let size = 23.0 * cut.title_unit;
    let mut y = size * 0.75;
    for line in wrap(title(piece, style), Face::Text, size, cut.measure()) {
        ink.centred(((cut.left + cut.right) / 2.0, y), size, Face::Text, &line);
        y += size * 1.2;
    }
    let small = 10.5 * cut.unit.min(1.6);
    let reference = format!("A = {} Hz", style.tongue.plain(piece.reference.a4_hz()));
    let half = cut.measure() / 2.0 - 6.0;
    let mut left = wrap(&piece.harp, Face::Italic, small, half);
    left.push(reference);
    let right = wrap(&piece.composer, Face::Text, small, half);
    y += 6.0 * cut.title_unit;
    let mut last = y;
    for (at, line) in left.iter().enumerate() {
        let face = if at + 1 == left.len() {
            Face::Text
        } else {
            Face::Italic
        };
        last = y + small * 1.35 * at as f64;
        ink.text((cut.left, last), small, face, line);
    }
    for (at, line) in right.iter().enumerate() {
        let there = y + small * 1.35 * at as f64;
        last = last.max(there);
        ink.ending((cut.right, there), small, Face::Text, line);
    }
    Block {
        ink,
        height: last + 4.0 * cut.unit,
        above: 0.0,
        stays: true,
    }
}

/// The opening diagram of a movement and what is tuned for it.
fn opening(movement: &MovementSheet, several: bool, style: &Style, cut: &Cut) -> Block {
    let (u, words) = (cut.unit, words(style.tongue));
    let mut ink = Ink::default();
    let mut y = 0.0;
    if several {
        for line in wrap(&movement.name, Face::Semibold, 13.0 * u, cut.measure()) {
            y += 14.0 * u;
            ink.text((cut.left, y), 13.0 * u, Face::Semibold, &line);
        }
        y += 8.0 * u;
    }
    if let Some(levers) = &movement.levers {
        let height = lever_opening::draw(levers, (cut.left, y), style, cut, &mut ink) + 4.0 * u;
        return Block {
            ink,
            height,
            above: 22.0 * u,
            stays: true,
        };
    }
    let label = 10.0 * u;
    y += label;
    ink.text((cut.left, y), label, Face::Italic, words.opening);
    let shown = diagram(movement.opening, None, 40.0 * u, style);
    let middle = y + 9.0 * u + shown.reach;
    let bottom = middle + shown.reach;
    let column = cut.left + shown.width.max(Face::Italic.width(words.opening, label)) + 30.0 * u;
    ink.put(shown.ink, (cut.left, middle));
    let (x, mut by_key) = if column > cut.left + cut.measure() * 0.6 {
        (cut.left, bottom + 8.0 * u + label)
    } else {
        (column, y)
    };
    if !movement.by_key.is_empty() {
        ink.text((x, by_key), label, Face::Italic, words.by_key);
        by_key += 3.0 * u;
        let told = set_to(&movement.by_key, style);
        for line in wrap(&told, Face::Text, 12.0 * u, cut.right - x) {
            by_key += 16.0 * u;
            ink.text((x, by_key), 12.0 * u, Face::Text, &line);
        }
    }
    Block {
        ink,
        height: bottom.max(by_key + 4.0 * u),
        above: 22.0 * u,
        stays: true,
    }
}

/// How the lines are to be read, once.
fn how_read(piece: &PieceSheet, style: &Style, cut: &Cut) -> Block {
    let words = words(style.tongue);
    let rings = piece
        .movements
        .iter()
        .any(|movement| !movement.landmarks.is_empty());
    let levers = piece
        .movements
        .iter()
        .any(|movement| movement.levers.is_some());
    let text = if levers {
        words.hands_read.to_owned()
    } else if rings {
        format!("{} {}", words.how_read, words.rings)
    } else {
        words.how_read.to_owned()
    };
    small(&text, 8.0, 18.0, cut)
}

/// A few words in small italics.
pub(crate) fn small(text: &str, size: f64, above: f64, cut: &Cut) -> Block {
    let size = size * cut.unit;
    let mut ink = Ink::default();
    let mut y = 0.0;
    for line in wrap(text, Face::Italic, size, cut.measure()) {
        y += size * 1.3;
        ink.text((cut.left, y), size, Face::Italic, &line);
    }
    Block {
        ink,
        height: y + size * 0.3,
        above: above * cut.unit,
        stays: false,
    }
}
