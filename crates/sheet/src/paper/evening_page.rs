//! The evening on one page: what is set, and what is turned, before each piece.

use pitch::ReferencePitch;

use super::by_key::{Set, set_to, turned_before};
use super::cut::Cut;
use super::diagram::diagram;
use super::face::Face;
use super::flow::{Block, pages};
use super::ink::{Ink, Page};
use super::piece_page::title;
use super::words::words;
use super::wrap::wrap;
use crate::{Evening, PieceSheet, Print, Style};

/// What one piece needs before it: the strings to turn, and the whole harp's pitch where that changes.
struct Before {
    turned: Vec<String>,
    first: bool,
}

/// The evening's page. In usual print it is drawn as large as fits, down to seven tenths of a piece's own print,
/// before it takes a second page; in large print it takes as many as it needs.
pub fn evening_pages(evening: &Evening, style: &Style) -> Vec<Page> {
    let mut cut = Cut::of(style);
    let sizes: &[f64] = match style.print {
        Print::Usual => &[1.3, 1.15, 1.0, 0.92, 0.85, 0.78, 0.7],
        Print::Large => &[2.0],
    };
    let mut best = Vec::new();
    for &unit in sizes {
        cut.unit = unit;
        let blocks = blocks(evening, style, &cut);
        best = pages(aired(blocks, &cut), &evening.title, &cut);
        if best.len() == 1 {
            break;
        }
    }
    best
}

/// What room is left goes between the pieces, up to as much again.
fn aired(mut blocks: Vec<Block>, cut: &Cut) -> Vec<Block> {
    let tall: f64 = blocks.iter().map(|block| block.above + block.height).sum();
    let spare = cut.bottom - cut.top - tall;
    let pieces = blocks.len().saturating_sub(1).max(1) as f64;
    let each = (spare / pieces - 1.0).clamp(0.0, 22.0 * cut.unit);
    for block in blocks.iter_mut().skip(1) {
        block.above += each;
    }
    blocks
}

fn blocks(evening: &Evening, style: &Style, cut: &Cut) -> Vec<Block> {
    let mut blocks = vec![heading(evening, cut)];
    let mut set = Set::default();
    let mut reference: Option<ReferencePitch> = None;
    for (at, piece) in evening.pieces.iter().enumerate() {
        let mut turned = Vec::new();
        if reference.is_some_and(|before| before != piece.reference) {
            let a4 = style.tongue.plain(piece.reference.a4_hz());
            turned.push((words(style.tongue).whole_harp)(&a4));
        }
        reference = Some(piece.reference);
        turned.extend(turned_before(piece, &mut set, style));
        let before = Before {
            turned,
            first: at == 0,
        };
        blocks.push(entry(at + 1, piece, &before, style, cut));
    }
    blocks
}

fn heading(evening: &Evening, cut: &Cut) -> Block {
    let mut ink = Ink::default();
    let middle = (cut.left + cut.right) / 2.0;
    let size = 25.0 * cut.title_unit;
    let mut y = size * 0.75;
    for line in wrap(&evening.title, Face::Text, size, cut.measure()) {
        ink.centred((middle, y), size, Face::Text, &line);
        y += size * 1.2;
    }
    let small = 11.0 * cut.title_unit;
    for line in wrap(&evening.note, Face::Italic, small, cut.measure()) {
        ink.centred((middle, y), small, Face::Italic, &line);
        y += small * 1.35;
    }
    Block {
        ink,
        height: y - small,
        above: 0.0,
        stays: true,
    }
}

fn entry(number: usize, piece: &PieceSheet, before: &Before, style: &Style, cut: &Cut) -> Block {
    let u = cut.unit;
    let mut ink = Ink::default();
    let indent = cut.left + 20.0 * u;
    let size = 14.0 * u;
    let composer = Face::Text.width(&piece.composer, 10.5 * u);
    let lines = |room: f64| wrap(title(piece, style), Face::Text, 14.0 * u, room).len();
    let (all, less) = (cut.right - indent, cut.right - indent - composer - 14.0 * u);
    let beside = composer <= cut.measure() * 0.4 && lines(less) == lines(all);
    let room = if beside { less } else { all };
    let mut y = size;
    ink.text((cut.left, y), size, Face::Text, &format!("{number}."));
    if beside {
        ink.ending((cut.right, y), 10.5 * u, Face::Text, &piece.composer);
    }
    for (at, line) in wrap(title(piece, style), Face::Text, size, room)
        .iter()
        .enumerate()
    {
        y += if at > 0 { size * 1.2 } else { 0.0 };
        ink.text((indent, y), size, Face::Text, line);
    }
    if !beside {
        for line in wrap(&piece.composer, Face::Text, 10.5 * u, room) {
            y += 14.0 * u;
            ink.text((indent, y), 10.5 * u, Face::Text, &line);
        }
    }
    y += 10.0 * u;
    let opening = piece.movements.first().map(|movement| movement.opening);
    let shown = diagram(opening.unwrap_or_default(), None, 32.0 * u, style);
    let beside = shown.width <= cut.measure() * 0.42;
    let x = if beside {
        indent + shown.width + 26.0 * u
    } else {
        indent
    };
    let bottom = y + 2.0 * shown.reach;
    ink.put(shown.ink, (indent, y + shown.reach));
    let mut at = if beside { y } else { bottom + 6.0 * u };
    for (label, text) in told(piece, before, style) {
        at = labelled((x, at), label, &text, &mut ink, cut);
    }
    Block {
        ink,
        height: bottom.max(at) + 2.0 * u,
        above: 24.0 * u,
        stays: false,
    }
}

/// What is said of a piece: a label, or none, and what follows it.
fn told(piece: &PieceSheet, before: &Before, style: &Style) -> Vec<(&'static str, String)> {
    let words = words(style.tongue);
    let reference = format!("A = {} Hz", style.tongue.plain(piece.reference.a4_hz()));
    let mut told = vec![("", reference)];
    let mut set: Vec<String> = Vec::new();
    for (at, movement) in piece.movements.iter().enumerate() {
        if movement.by_key.is_empty() {
            continue;
        }
        let strings = set_to(&movement.by_key, style);
        let name = if movement.name.is_empty() {
            (at + 1).to_string()
        } else {
            movement.name.clone()
        };
        set.push(match at {
            0 => strings,
            _ => (words.before_movement)(&name, &strings),
        });
    }
    if !set.is_empty() {
        told.push((words.by_key, set.join("; ")));
    }
    if !before.first {
        let turned = before.turned.join(", ");
        let turned = if turned.is_empty() {
            words.nothing_turned.to_owned()
        } else {
            turned
        };
        told.push((words.before, turned));
    }
    told
}

/// A label in italics and its text, broken beside it; gives where the next one begins.
fn labelled((x, y): (f64, f64), label: &str, text: &str, ink: &mut Ink, cut: &Cut) -> f64 {
    let (u, size) = (cut.unit, 11.0 * cut.unit);
    let mut y = y + size;
    let mut first = 0.0;
    if !label.is_empty() {
        first = ink.text((x, y), size, Face::Italic, label) + 7.0 * u;
        if first > (cut.right - x) * 0.45 {
            (first, y) = (0.0, y + size * 1.3);
        }
    }
    let lines = wrap(text, Face::Text, size, cut.right - x - first);
    for (at, line) in lines.iter().enumerate() {
        y += if at > 0 { size * 1.3 } else { 0.0 };
        ink.text((x + first, y), size, Face::Text, line);
    }
    y + 5.0 * u
}
