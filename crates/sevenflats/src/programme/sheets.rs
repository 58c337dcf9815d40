//! The evening's pages: itself on one, then each piece.

use std::path::Path;

use harp::Naming;
use pedals::lost_tonight;
use sheet::{BeforePiece, Evening, Head, MovementSheet, PieceSheet, Remark, RemarkKind};

use super::made::{Content, Made};
use super::{Told, page};
use crate::printed::{self, PrintArguments};
use crate::situation;
use crate::trouble::Trouble;

pub(super) fn write(
    told: &Told<'_>,
    path: &Path,
    arguments: &PrintArguments,
    naming: Naming,
) -> Result<(), Trouble> {
    let pieces = told.pieces.iter().enumerate();
    let evening = Evening {
        title: told.evening.title.clone(),
        note: told.evening.note.clone(),
        pieces: pieces
            .map(|(at, piece)| sheet(told, at, piece, naming))
            .collect(),
    };
    let style = arguments.style(naming);
    let mut pages = sheet::evening_pages(&evening, &style);
    for piece in evening
        .pieces
        .iter()
        .filter(|piece| !piece.movements.is_empty())
    {
        pages.extend(sheet::piece_pages(piece, &style));
    }
    printed::write(path, &pages, &evening.title)
}

fn sheet(told: &Told<'_>, at: usize, piece: &Made, naming: Naming) -> PieceSheet {
    let head = Head {
        title: Some(piece.title.clone()),
        composer: Some(piece.composer.clone()),
        harp: situation::called(&piece.harp_name, &piece.harp),
        reference: piece.reference,
        before: BeforePiece::of(told.programme, at),
    };
    let mut sheet = match &piece.content {
        Content::Pedals { read, plan, .. } => {
            PieceSheet::of_plan(&read.piece, &read.demand, plan, head)
        }
        Content::Levers { read, plan, .. } => {
            PieceSheet::of_levers(&read.piece, &read.demand, plan, head)
        }
        Content::Paper { part, .. } => PieceSheet::of_paper(part, head),
        Content::Nothing => PieceSheet {
            title: piece.title.clone(),
            composer: piece.composer.clone(),
            harp: situation::called(&piece.harp_name, &piece.harp),
            reference: piece.reference,
            movements: Vec::<MovementSheet>::new(),
            ..PieceSheet::default()
        },
    };
    let unread = piece
        .unread
        .iter()
        .map(|reason| format!("Not read: {reason}"));
    let lost = lost_tonight(piece.what(), told.broken);
    let touched = page::stretches(piece, &lost, naming).into_iter();
    sheet
        .remarks
        .extend(unread.chain(touched).map(|words| Remark {
            bar: None,
            beat: String::new(),
            what: RemarkKind::Caution(words),
        }));
    sheet
}
