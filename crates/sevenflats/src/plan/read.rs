//! The score as it was read, and what it asks of a harp.

use std::collections::BTreeMap;
use std::path::Path;

use pedals::{Demand, LeftOut, within_reach};
use score::{Options, Piece, WhichPart};

use super::arguments::{HarmonicsWord, PlanArguments};
use crate::trouble::Trouble;

/// No score is longer than this, in bytes.
const LONGEST: u64 = 200_000_000;

/// A piece, ready to be planned.
pub(crate) struct Read {
    /// The file, where it is to be written again.
    pub(crate) bytes: Vec<u8>,
    pub(crate) piece: Piece,
    pub(crate) demand: Demand,
    /// What of it is not planned, and why.
    pub(crate) left_out: Option<LeftOut>,
    rehearsals: BTreeMap<u32, String>,
}

/// How a score is read.
#[derive(Clone, Debug)]
pub(crate) struct ReadAs {
    /// The part, where it is named.
    pub(crate) part: Option<String>,
    pub(crate) harmonics: HarmonicsWord,
    pub(crate) repeats: bool,
    /// Whether the file is kept, to be written again.
    pub(crate) keep: bool,
}

impl ReadAs {
    pub(crate) fn of(arguments: &PlanArguments) -> Self {
        Self {
            part: arguments.part.clone(),
            harmonics: arguments.harmonics,
            repeats: !arguments.no_repeats,
            keep: arguments.score_out.is_some(),
        }
    }
}

pub(crate) fn read(path: &Path, how: &ReadAs) -> Result<Read, Trouble> {
    let bytes = bytes_of(path)?;
    let options = Options {
        part: match &how.part {
            Some(name) => WhichPart::Named(name.clone()),
            None => WhichPart::Harp,
        },
        harmonics: match how.harmonics {
            HarmonicsWord::String => score::Harmonics::String,
            HarmonicsWord::Sounding => score::Harmonics::Sounding,
        },
    };
    let piece = score::read(&bytes, &options).map_err(|reason| Trouble::Score {
        path: path.to_owned(),
        reason,
    })?;
    // a large file is not kept for nothing
    let bytes = if how.keep { bytes } else { Vec::new() };
    let reach = within_reach(&piece, how.repeats);
    Ok(Read {
        rehearsals: piece.rehearsals(),
        bytes,
        piece,
        demand: reach.demand,
        left_out: reach.left_out,
    })
}

fn bytes_of(path: &Path) -> Result<Vec<u8>, Trouble> {
    let told = |reason: std::io::Error| Trouble::ScoreFile {
        path: path.to_owned(),
        reason,
    };
    let size = std::fs::metadata(path).map_err(told)?.len();
    if size > LONGEST {
        return Err(Trouble::Score {
            path: path.to_owned(),
            reason: score::ScoreError::TooLarge {
                limit: LONGEST as usize,
            },
        });
    }
    std::fs::read(path).map_err(told)
}

impl Read {
    /// The number printed at a written measure.
    pub(crate) fn bar(&self, measure: u32) -> String {
        self.piece.bar(measure)
    }

    /// The rehearsal mark at a written measure.
    pub(crate) fn rehearsal(&self, measure: u32) -> Option<String> {
        self.rehearsals.get(&measure).cloned()
    }
}
