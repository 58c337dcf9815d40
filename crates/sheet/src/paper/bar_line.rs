//! One line of bars: a thin line between the feet, letters above for the right and below for the left; where a
//! rehearsal mark stands, the setting lies on the same line.

use harp::Setting;
use pitch::SpelledPitch;

use super::cut::Cut;
use super::diagram::{diagram, moves};
use super::face::Face;
use super::flow::Block;
use super::ink::Ink;
use super::remarks::octaved;
use super::words::words;
use crate::{BarChanges, Landmark, MovementSheet, Pencilled, Style};

/// Something on the line, drawn from its own left edge round the line at 0.
struct Cell {
    ink: Ink,
    width: f64,
    /// The bar, where it is one.
    bar: Option<u32>,
    /// Whether it is the rest of a bar that did not fit one line.
    goes_on: bool,
    /// Whether the next bar on the line is not the next of the piece.
    breaks_off: bool,
}

/// How wide the gap is where bars are left out, in units.
const GAP: f64 = 8.0;

/// Every line of a movement, a block each; a bar's changes are in one block.
pub(crate) fn lines(movement: &MovementSheet, style: &Style, cut: &Cut) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut line: Vec<Cell> = Vec::new();
    for cells in cells(movement, style, cut) {
        let landmark = cells.iter().any(|cell| cell.bar.is_none());
        let wide: f64 = cells.iter().chain(&line).map(|cell| cell.width).sum();
        let wide = wide + GAP * cut.unit;
        let after_bars = line.iter().any(|cell| cell.bar.is_some());
        let full = wide > cut.measure() + 1e-6;
        if !line.is_empty() && (full || landmark && after_bars || cells.len() > 1) {
            blocks.push(set(std::mem::take(&mut line), full && !landmark, cut));
        }
        if cells.len() > 1 {
            blocks.extend(long_bar(cells, cut));
        } else {
            // the room of a gap is counted in already, with the bar after it
            let bar = cells.first().and_then(|cell| cell.bar);
            if let (Some(last), Some(bar)) = (line.last_mut(), bar)
                && last.bar.is_some_and(|last| last + 1 != bar)
            {
                last.breaks_off = true;
                last.width += GAP * cut.unit;
            }
            line.extend(cells);
        }
    }
    if !line.is_empty() {
        blocks.push(set(line, false, cut));
    }
    blocks
}

/// What stands on the lines, in order; a bar of several cells is wider than a line.
fn cells(movement: &MovementSheet, style: &Style, cut: &Cut) -> Vec<Vec<Cell>> {
    let mut all: Vec<((u32, u8), Vec<Cell>)> = Vec::new();
    let mut before = movement.opening;
    let mut marks: Vec<&Landmark> = movement.landmarks.iter().collect();
    marks.sort_by_key(|mark| mark.bar.order);
    for mark in marks {
        let cell = landmark(mark, before, style, cut);
        before = mark.setting;
        all.push(((mark.bar.order, 0), vec![cell]));
    }
    for bar in &movement.bars {
        all.push(((bar.bar.order, 1), bar_cells(bar, style, cut)));
    }
    all.sort_by_key(|(key, _)| *key);
    all.into_iter().map(|(_, cells)| cells).collect()
}

fn landmark(mark: &Landmark, before: Setting, style: &Style, cut: &Cut) -> Cell {
    let u = cut.unit;
    let mut ink = Ink::default();
    let size = 11.5 * u;
    let (wide, pad) = (Face::Semibold.width(&mark.mark, size), 4.0 * u);
    let frame = (wide.max(size * 0.6) + 2.0 * pad, 15.5 * u);
    ink.centred((frame.0 / 2.0, -26.5 * u), size, Face::Semibold, &mark.mark);
    ink.frame((0.0, -38.0 * u), frame, 0.8 * u);
    let mut x = frame.0 + 5.0 * u;
    x += ink.text((x, -26.5 * u), 9.0 * u, Face::Semibold, &mark.bar.label);
    if !mark.times.is_empty() {
        let times = (words(style.tongue).times)(&mark.times);
        x += 5.0 * u;
        x += ink.text((x, -26.5 * u), 9.0 * u, Face::Italic, &times);
    }
    let shown = diagram(mark.setting, Some(before), 27.0 * u, style);
    let width = x.max(shown.width) + 16.0 * u;
    ink.put(shown.ink, (0.0, 0.0));
    Cell {
        ink,
        width,
        bar: None,
        goes_on: false,
        breaks_off: false,
    }
}

fn bar_cells(bar: &BarChanges, style: &Style, cut: &Cut) -> Vec<Cell> {
    let u = cut.unit;
    let mut cells: Vec<Cell> = Vec::new();
    let number = Face::Semibold.width(&bar.bar.label, 9.0 * u);
    let empty = |goes_on: bool| {
        let mut ink = Ink::default();
        if !goes_on {
            ink.text(
                (2.5 * u, -20.0 * u),
                9.0 * u,
                Face::Semibold,
                &bar.bar.label,
            );
        }
        Cell {
            ink,
            width: 8.0 * u,
            bar: Some(bar.bar.order),
            goes_on,
            breaks_off: false,
        }
    };
    let mut cell = empty(false);
    let mut least = number + 9.5 * u;
    for beat in &bar.beats {
        let mut column = Ink::default();
        let figure = Face::Text.width(&beat.beat, 7.5 * u);
        let right = pencilled(&beat.right, -6.0 * u, style, cut, &mut column);
        let left = pencilled(&beat.left, 15.0 * u, style, cut, &mut column);
        let wide = right.max(left).max(figure) + 9.0 * u;
        if cell.width.max(least) + wide > cut.measure() && cell.width > 8.0 * u {
            cells.push(std::mem::replace(&mut cell, empty(true)));
            least = 0.0;
        }
        // the beat's figure stands over its letters, clear of the bar's number
        let at = cell
            .width
            .max(if beat.beat.is_empty() { 0.0 } else { least });
        column.text((0.0, -20.0 * u), 7.5 * u, Face::Text, &beat.beat);
        cell.ink.put(column, (at, 0.0));
        cell.width = at + wide;
        least = 0.0;
    }
    cell.width = cell.width.max(number + 10.0 * u) + 2.0 * u;
    cells.push(cell);
    cells
}

/// A pedal's letter, or a lever's string, as it stands then.
fn named(change: &Pencilled, style: &Style) -> String {
    let Some(string) = change.string else {
        return moves(change.letter, change.to, style);
    };
    octaved(
        SpelledPitch::new(string.letter, change.to, string.octave),
        style,
    )
}

/// The letters of one foot; gives their width.
fn pencilled(changes: &[Pencilled], y: f64, style: &Style, cut: &Cut, ink: &mut Ink) -> f64 {
    let u = cut.unit;
    let mut x = 0.0;
    for (at, change) in changes.iter().enumerate() {
        x += if at > 0 { 5.0 * u } else { 0.0 };
        x += ink.text((x, y), 13.0 * u, Face::Text, &named(change, style));
        if !change.only.is_empty() {
            let times = (words(style.tongue).times)(&change.only);
            x += 2.5 * u;
            x += ink.text((x, y), 8.0 * u, Face::Italic, &times);
        }
    }
    x
}

/// A bar wider than a line, its lines in one block as far as a page has room.
fn long_bar(cells: Vec<Cell>, cut: &Cut) -> Vec<Block> {
    let page = cut.bottom - cut.top - 40.0 * cut.unit;
    let mut blocks: Vec<Block> = Vec::new();
    for cell in cells {
        let line = set(vec![cell], false, cut);
        match blocks.last_mut() {
            Some(last) if last.height + line.above + line.height <= page => {
                last.ink.put(line.ink, (0.0, last.height + line.above));
                last.height += line.above + line.height;
            }
            _ => blocks.push(line),
        }
    }
    blocks
}

/// One line of cells as a block; one that could take no more is spread over the whole width.
fn set(cells: Vec<Cell>, full: bool, cut: &Cut) -> Block {
    let u = cut.unit;
    let bars = cells.iter().filter(|cell| cell.bar.is_some()).count();
    let wide: f64 = cells.iter().map(|cell| cell.width).sum();
    let spare = (cut.measure() - wide).max(0.0);
    // a line that is nearly full is spread too; one of few bars is not torn apart
    let of_bars: f64 = cells
        .iter()
        .filter(|cell| cell.bar.is_some())
        .map(|cell| cell.width)
        .sum();
    let spread = bars > 0 && (full && spare < 0.7 * of_bars || spare < 0.15 * cut.measure());
    let each = if spread { spare / bars as f64 } else { 0.0 };
    let marked = bars < cells.len();
    let middle = if marked { 39.0 * u } else { 27.0 * u };
    let mut ink = Ink::default();
    let mut x = cut.left;
    let mut closed = false;
    for cell in cells {
        let width = cell.width + if cell.bar.is_some() { each } else { 0.0 };
        if cell.bar.is_some() {
            // where bars are left out between two, the line breaks off
            let end = if cell.breaks_off {
                x + width - GAP * u
            } else {
                x + width
            };
            ink.line((x, middle), (end, middle), 0.5 * u);
            if !cell.goes_on {
                bar_sign(x, middle, u, &mut ink);
            }
        }
        closed = cell.bar.is_some() && !cell.breaks_off;
        ink.put(cell.ink, (x, middle));
        x += width;
    }
    if closed {
        bar_sign(x, middle, u, &mut ink);
    }
    Block {
        ink,
        height: middle + 19.0 * u,
        above: 15.0 * u,
        stays: false,
    }
}

fn bar_sign(x: f64, middle: f64, u: f64, ink: &mut Ink) {
    ink.line((x, middle - 7.0 * u), (x, middle + 7.0 * u), 0.6 * u);
}
