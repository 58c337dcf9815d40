//! `sevenflats programme`: an evening prepared, piece by piece and as a whole.

pub mod arguments;
mod evening_file;
mod json;
mod made;
mod page;
mod sheets;

use std::io::Write;
use std::path::Path;

use pedals::{Broken, Known, Programme, ProgrammePiece, StringUse};

use crate::plan::wishes;
use crate::trouble::Trouble;
use arguments::ProgrammeArguments;
use evening_file::EveningFile;
use made::Made;

/// An evening as it is told.
pub(crate) struct Told<'a> {
    evening: &'a EveningFile,
    pieces: &'a [Made],
    programme: &'a Programme,
    broken: &'a Broken,
}

/// Prepares an evening, and tells it; gives what could not be read of it.
pub(crate) fn programme(
    arguments: &ProgrammeArguments,
    out: &mut dyn Write,
) -> Result<Vec<Trouble>, Trouble> {
    if arguments.toml {
        write!(out, "{}", evening_file::TO_FILL_IN)?;
        out.flush()?;
        return Ok(Vec::new());
    }
    let Some(path) = &arguments.evening else {
        return Ok(Vec::new());
    };
    let broken = wishes::broken(&arguments.broken);
    let (evening, pieces) = pieces(path, &broken)?;
    let known: Vec<ProgrammePiece<'_>> = pieces.iter().map(Made::known).collect();
    let told = Told {
        evening: &evening,
        pieces: &pieces,
        programme: &pedals::programme(&known),
        broken: &broken,
    };
    if arguments.shown.json {
        json::write(&told, out)?;
    } else {
        page::write(&told, arguments.shown.names, out)?;
    }
    out.flush()?;
    let mut troubles = troubles(&pieces);
    if let Some(path) = &arguments.print.sheet {
        troubles.extend(sheets::write(&told, path, &arguments.print, arguments.shown.names).err());
    }
    Ok(troubles)
}

/// How each string is used in an evening, and what of it could not be read.
pub(crate) fn used(path: &Path) -> Result<(Vec<StringUse>, Vec<Trouble>), Trouble> {
    let (_, pieces) = pieces(path, &Broken::default())?;
    let known: Vec<ProgrammePiece<'_>> = pieces.iter().map(Made::known).collect();
    Ok((pedals::programme(&known).strings, troubles(&pieces)))
}

/// An evening's file, and its pieces, read and planned.
fn pieces(path: &Path, broken: &Broken) -> Result<(EveningFile, Vec<Made>), Trouble> {
    let evening = read(path)?;
    let beside = path.parent().unwrap_or(Path::new(""));
    let made = evening.pieces.iter();
    let made = made.map(|entry| Made::of(entry, beside, broken));
    let mut pieces = made.collect::<Result<Vec<_>, _>>()?;
    check(&pieces, broken)?;
    made::share_open_tunings(&mut pieces, broken)?;
    Ok((evening, pieces))
}

/// What could not be read of each piece.
fn troubles(pieces: &[Made]) -> Vec<Trouble> {
    let numbered = pieces.iter().enumerate();
    numbered
        .flat_map(|(at, piece)| piece.troubles(at + 1))
        .collect()
}

fn read(path: &Path) -> Result<EveningFile, Trouble> {
    let failed = |reason: String| Trouble::Evening {
        path: path.to_owned(),
        reason,
    };
    let of_disk = |reason: std::io::Error| {
        failed(format!(
            "the evening cannot be read: {reason}; check its name and that you may read it"
        ))
    };
    let bytes = std::fs::metadata(path).map_err(of_disk)?.len();
    if bytes > evening_file::LONGEST {
        return Err(failed(format!(
            "{bytes} bytes is no evening; one is a page of text"
        )));
    }
    let text = std::fs::read_to_string(path).map_err(of_disk)?;
    evening_file::read(&text).map_err(failed)
}

/// Refuses what no harp of the evening has.
fn check(pieces: &[Made], broken: &Broken) -> Result<(), Trouble> {
    let dead = broken.dead_discs.iter().map(|&(string, _)| string);
    for string in broken.missing.iter().copied().chain(dead) {
        if !pieces
            .iter()
            .any(|piece| piece.harp.string(string).is_some())
        {
            return Err(Trouble::NoHarpHas { string });
        }
    }
    Ok(())
}

/// What is known of a piece, for the rooms to the left.
impl Made {
    fn known(&self) -> ProgrammePiece<'_> {
        ProgrammePiece {
            harp_name: &self.harp_name,
            harp: &self.harp,
            reference: self.reference,
            known: self.what(),
        }
    }

    fn what(&self) -> Known<'_> {
        match &self.content {
            made::Content::Pedals { read, plan, .. } => Known::Pedals(&read.demand, plan),
            made::Content::Levers { read, plan, .. } => Known::Levers(&read.demand, plan),
            made::Content::Paper { part, .. } => Known::Paper(part),
            made::Content::Nothing => Known::Nothing,
        }
    }
}
