//! The evening on one page: what is set, and what is turned, before each piece.

use harp::Setting;

use super::by_key::{set_to, turned};
use super::cut::Cut;
use super::diagram::diagram;
use super::face::Face;
use super::flow::{Block, pages};
use super::ink::{Ink, Page};
use super::lever_opening::{levers_on, open_name};
use super::piece_page::{small, title};
use super::words::words;
use super::wrap::wrap;
use crate::{Evening, PieceSheet, Print, RemarkKind, Style};

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
    let mut last = "";
    for (at, piece) in evening.pieces.iter().enumerate() {
        // the harp is named where it is another
        let harp = if piece.harp == last { "" } else { &piece.harp };
        last = &piece.harp;
        blocks.push(entry((at + 1, harp), piece, style, cut));
    }
    let words = words(style.tongue);
    if evening.pieces.iter().any(is_ringed) {
        blocks.push(small(words.rings_between, 9.0, 20.0, cut));
    }
    if evening.pieces.iter().any(|piece| piece.before.goes_up()) {
        blocks.push(small(words.going_up, 9.0, 6.0, cut));
    }
    blocks
}

/// Whether a pedal stands elsewhere than it was left.
fn is_ringed(piece: &PieceSheet) -> bool {
    let opening = piece.movements.first().map(|movement| movement.opening);
    opening.is_some_and(|opening| piece.before.left.moves_to(&opening).pedals > 0)
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

fn entry((number, harp): (usize, &str), piece: &PieceSheet, style: &Style, cut: &Cut) -> Block {
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
    let first = piece.movements.first();
    let opening = first.map(|movement| movement.opening).unwrap_or_default();
    let (mut bottom, mut x) = (y, indent);
    if opening != Setting::default() {
        let shown = diagram(opening, Some(piece.before.left), 32.0 * u, style);
        bottom = y + 2.0 * shown.reach;
        if shown.width <= cut.measure() * 0.42 {
            x = indent + shown.width + 26.0 * u;
        }
        ink.put(shown.ink, (indent, y + shown.reach));
    }
    let mut at = if x > indent || bottom <= y {
        y
    } else {
        bottom + 6.0 * u
    };
    for (label, text) in told(piece, harp, style) {
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
fn told(piece: &PieceSheet, harp: &str, style: &Style) -> Vec<(&'static str, String)> {
    let words = words(style.tongue);
    let reference = format!("A = {} Hz", style.tongue.plain(piece.reference.a4_hz()));
    let reference = reference.replace(' ', "\u{a0}");
    let harp = if harp.is_empty() {
        String::new()
    } else {
        format!("{harp}, ")
    };
    let mut told = vec![("", harp + &reference)];
    if let Some(levers) = piece
        .movements
        .first()
        .and_then(|first| first.levers.as_ref())
    {
        told.push((words.open_tuning, open_name(levers.open, style)));
        told.push((words.levers_on, levers_on(&levers.on, style)));
    }
    let set = by_movement(piece, style);
    if !set.is_empty() {
        told.push((words.by_key, set));
    }
    if piece.movements.is_empty() {
        told.extend(
            piece
                .remarks
                .iter()
                .filter_map(|remark| match &remark.what {
                    RemarkKind::Caution(words) => Some(("", words.clone())),
                    _ => None,
                }),
        );
        return told;
    }
    if piece.before.follows {
        let done = done_before(piece, style);
        let done = if done.is_empty() {
            words.nothing_turned.to_owned()
        } else {
            done.join(", ")
        };
        told.push((words.before, done));
    }
    told
}

/// Strings without discs, movement by movement.
fn by_movement(piece: &PieceSheet, style: &Style) -> String {
    let words = words(style.tongue);
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
    set.join("; ")
}

/// What is turned and flipped on stage before a piece.
fn done_before(piece: &PieceSheet, style: &Style) -> Vec<String> {
    let (words, before) = (words(style.tongue), &piece.before);
    let mut done = Vec::new();
    if before.whole_harp {
        let a4 = style.tongue.plain(piece.reference.a4_hz());
        done.push((words.whole_harp)(&a4));
    }
    let levers = piece
        .movements
        .first()
        .and_then(|first| first.levers.as_ref());
    if let (Some(other), Some(levers)) = (before.other_open, levers) {
        let (from, to) = (open_name(other, style), open_name(levers.open, style));
        done.push((words.other_open)(&from, &to));
    }
    done.extend(turned(before, style));
    for on in [true, false] {
        let flips = before.flips.iter().filter(|flip| flip.1 == on);
        let strings = flips.map(|&(string, _)| style.naming.string(string));
        let strings: Vec<String> = strings.collect();
        if !strings.is_empty() {
            done.push((words.flipped)(&strings.join(" "), on));
        }
    }
    done
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
