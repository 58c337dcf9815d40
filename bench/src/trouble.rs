//! What can keep a bench from measuring.

use std::path::{Path, PathBuf};

/// A reason to stop.
#[derive(Debug, thiserror::Error)]
pub enum Trouble {
    /// A file or folder.
    #[error("{}: {source}", path.display())]
    File {
        /// Which.
        path: PathBuf,
        /// What the system said.
        source: std::io::Error,
    },
    /// A line of a table that another program wrote.
    #[error("{}, line {line}: '{text}' is not understood", path.display())]
    Line {
        /// The table.
        path: PathBuf,
        /// Counted from 1.
        line: usize,
        /// What stands there.
        text: String,
    },
    /// The harp.
    #[error(transparent)]
    Harp(#[from] harp::HarpError),
    /// The round.
    #[error(transparent)]
    Round(#[from] pluck::RoundError),
    /// The ear.
    #[error("the ear: {0}")]
    Ear(#[from] tuning::EarError),
    /// A score.
    #[error("the score: {0}")]
    Score(#[from] score::ScoreError),
    /// A record of a diary.
    #[error("the diary: {0}")]
    Diary(#[from] diary::AppendError),
    /// The name of a device that writes a diary.
    #[error("the diary: {0}")]
    Device(#[from] diary::DeviceError),
    /// A program that was run.
    #[error("{program}: {what}")]
    Program {
        /// Which.
        program: String,
        /// What went wrong.
        what: String,
    },
    /// The page has lost the lines between which it is written.
    #[error("{}: the lines '{begin}' and '{end}' are not both there, once each and in order", path.display())]
    Markers {
        /// The page.
        path: PathBuf,
        /// The first line.
        begin: &'static str,
        /// The second.
        end: &'static str,
    },
}

impl Trouble {
    /// For `map_err`: what the system said about a path.
    pub fn at(path: &Path) -> impl FnOnce(std::io::Error) -> Self {
        let path = path.to_owned();
        move |source| Self::File { path, source }
    }
}
