//! The score as it was read, and what it asks of a harp.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::hash::{DefaultHasher, Hash, Hasher};
use std::path::{Path, PathBuf};

use pedals::{Demand, LeftOut, within_reach};
use score::{Options, Piece, WhichPart};

use super::arguments::{HarmonicsWord, PlanArguments};
use crate::trouble::Trouble;

/// No score is longer than this, in bytes.
const LONGEST: u64 = 200_000_000;

/// A file no longer than this is kept, to be written again; the planner needs the room of a longer one.
const MOST_KEPT: usize = 20_000_000;

/// A piece, ready to be planned.
pub(crate) struct Read {
    path: PathBuf,
    source: Source,
    pub(crate) piece: Piece,
    pub(crate) demand: Demand,
    /// What of it is not planned, and why.
    pub(crate) left_out: Option<LeftOut>,
    rehearsals: BTreeMap<u32, String>,
}

/// The file's bytes, once they were read.
enum Source {
    LetGo,
    Kept(Vec<u8>),
    /// There are many: they are read again, and must come to the same.
    ReadAgain {
        fingerprint: u64,
    },
}

/// How a score is read.
#[derive(Clone, Debug)]
pub(crate) struct ReadAs {
    /// The part, where it is named.
    pub(crate) part: Option<String>,
    pub(crate) harmonics: HarmonicsWord,
    pub(crate) repeats: bool,
    /// Whether the file is wanted once more, to be written again.
    pub(crate) again: bool,
}

impl ReadAs {
    pub(crate) fn of(arguments: &PlanArguments) -> Self {
        Self {
            part: arguments.part.clone(),
            harmonics: arguments.harmonics,
            repeats: !arguments.no_repeats,
            again: arguments.score_out.is_some(),
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
    let source = match (how.again, bytes.len() > MOST_KEPT) {
        (false, _) => Source::LetGo,
        (true, false) => Source::Kept(bytes),
        (true, true) => Source::ReadAgain {
            fingerprint: fingerprint(&bytes),
        },
    };
    let reach = within_reach(&piece, how.repeats);
    Ok(Read {
        rehearsals: piece.rehearsals(),
        path: path.to_owned(),
        source,
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

fn fingerprint(bytes: &[u8]) -> u64 {
    let mut hasher = DefaultHasher::new();
    bytes.hash(&mut hasher);
    hasher.finish()
}

impl Read {
    /// The file's bytes once more; `None` if they are no longer those that were read.
    pub(crate) fn bytes_again(&self) -> Result<Option<Cow<'_, [u8]>>, Trouble> {
        Ok(match &self.source {
            Source::LetGo => None,
            Source::Kept(bytes) => Some(Cow::Borrowed(bytes)),
            Source::ReadAgain { fingerprint: same } => {
                let bytes = bytes_of(&self.path)?;
                (fingerprint(&bytes) == *same).then_some(Cow::Owned(bytes))
            }
        })
    }

    /// The number printed at a written measure.
    pub(crate) fn bar(&self, measure: u32) -> String {
        self.piece.bar(measure)
    }

    /// The rehearsal mark at a written measure.
    pub(crate) fn rehearsal(&self, measure: u32) -> Option<String> {
        self.rehearsals.get(&measure).cloned()
    }
}
