//! Blocks put on pages: what stays together, the running title, the page's number.

use super::cut::Cut;
use super::face::Face;
use super::ink::{Ink, Page};
use super::wrap::wrap;

/// Something that is never split between pages.
#[derive(Clone, Debug, Default)]
pub(crate) struct Block {
    pub(crate) ink: Ink,
    pub(crate) height: f64,
    /// Room above it, but at the top of a page.
    pub(crate) above: f64,
    /// Whether the next block should stand on the same page.
    pub(crate) stays: bool,
}

/// The pages of one title. All but the first have it at their top.
pub(crate) fn pages(blocks: Vec<Block>, title: &str, cut: &Cut) -> Vec<Page> {
    let running = running_title(title, cut);
    let room = cut.bottom - cut.top - running.height - running.above;
    let mut sheets: Vec<Ink> = vec![Ink::default()];
    let (mut y, mut fresh) = (cut.top, true);
    let mut rest = blocks.into_iter().peekable();
    while rest.peek().is_some() {
        let group = together(&mut rest, room);
        let tall: f64 = group.iter().map(|block| block.height).sum();
        let gaps: f64 = group.iter().skip(1).map(|block| block.above).sum();
        let above = group.first().map_or(0.0, |block| block.above);
        if !fresh && y + above + tall + gaps > cut.bottom + 1e-6 {
            let mut ink = Ink::default();
            ink.put(running.ink.clone(), (0.0, cut.top));
            sheets.push(ink);
            (y, fresh) = (cut.top + running.height + running.above, true);
        }
        for block in group {
            y += if fresh { 0.0 } else { block.above };
            if let Some(sheet) = sheets.last_mut() {
                sheet.put(block.ink, (0.0, y));
            }
            y += block.height;
            fresh = false;
        }
    }
    numbered(sheets, title, cut)
}

/// The next block and those that it takes along, as far as a page has room for them.
fn together(rest: &mut std::iter::Peekable<impl Iterator<Item = Block>>, room: f64) -> Vec<Block> {
    let mut group: Vec<Block> = Vec::new();
    let mut tall = 0.0;
    while let Some(block) = rest.next_if(|block| {
        group
            .last()
            .is_none_or(|last| last.stays && tall + block.above + block.height <= room)
    }) {
        tall += block.above + block.height;
        group.push(block);
    }
    group
}

fn running_title(title: &str, cut: &Cut) -> Block {
    let size = 10.0 * cut.title_unit;
    let mut ink = Ink::default();
    let lines = wrap(title, Face::Italic, size, cut.measure());
    // one line says whose page it is
    let line = match lines.as_slice() {
        [only] => only.clone(),
        [first, ..] => format!("{first} …"),
        [] => String::new(),
    };
    ink.text((cut.left, size * 0.5), size, Face::Italic, &line);
    Block {
        ink,
        height: size,
        above: 16.0 * cut.unit,
        stays: true,
    }
}

fn numbered(sheets: Vec<Ink>, title: &str, cut: &Cut) -> Vec<Page> {
    let all = sheets.len();
    let number = |(at, mut ink): (usize, Ink)| {
        let number = match all {
            1 => "1".to_owned(),
            _ => format!("{} / {all}", at + 1),
        };
        let middle = (cut.left + cut.right) / 2.0;
        ink.centred(
            (middle, cut.foot()),
            9.0 * cut.title_unit,
            Face::Text,
            &number,
        );
        Page {
            paper: cut.paper,
            title: title.to_owned(),
            items: ink.items,
        }
    };
    sheets.into_iter().enumerate().map(number).collect()
}
