//! What may be said after `sevenflats diary`.

use std::path::PathBuf;

use clap::{Args, Subcommand};
use diary::{Day, Giving, Group};
use harp::StringName;

use crate::arguments::ShownArguments;

/// How the exit code is read.
const EXIT_CODES: &str = "Exit codes: 0 done, and nothing is missing; 1 something could not be read or written, or is missing; \
2 the command is not understood.";

/// `sevenflats diary`.
#[derive(Debug, Args)]
#[command(after_help = EXIT_CODES)]
pub struct DiaryArguments {
    /// What to do with it.
    #[command(subcommand)]
    pub command: DiaryCommand,

    /// The diary's file [default: diary.sqlite in this system's folder for data of programs, under sevenflats]
    #[arg(long, value_name = "FILE", global = true)]
    pub diary: Option<PathBuf>,
}

/// What is done with the diary.
#[derive(Debug, Subcommand)]
pub enum DiaryCommand {
    /// Take in the records of a file as the page exports it, a line each; '-' for standard input
    Import(FileArguments),
    /// Write every record, a line each, to a file or to standard output; with --kinds, --since or --harp only some
    Export(ExportArguments),
    /// What is known of each string now
    Show(ShowArguments),
    /// Look whether the file is whole and nothing is missing
    Check(JsonArguments),
    /// Copy the diary, whole as it is at one moment, into a new file
    Backup(FileArguments),
    /// Put a backup in the place of the diary, which is kept beside it
    Restore(FileArguments),
}

/// A file.
#[derive(Debug, Args)]
pub struct FileArguments {
    /// The file
    #[arg(value_name = "FILE")]
    pub file: PathBuf,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub json: JsonArguments,
}

/// `sevenflats diary export`.
#[derive(Debug, Args)]
pub struct ExportArguments {
    /// The new file [default: standard output]
    #[arg(value_name = "FILE")]
    pub file: Option<PathBuf>,

    /// Only these, with commas between: rounds, practice, strings, regulation, air, spares, notes, programmes. With --since or
    /// --harp alone: all but notes and programmes
    #[arg(long, value_name = "KINDS", value_delimiter = ',')]
    pub kinds: Vec<Group>,

    /// Only from this day on (UTC), as 2026-11-26
    #[arg(long, value_name = "DAY")]
    pub since: Option<Day>,

    /// Only this harp, by the name that the diary has for it, and what is said of no harp
    #[arg(long, value_name = "NAME")]
    pub harp: Option<String>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub json: JsonArguments,
}

impl ExportArguments {
    /// What of the diary is to be given; `None` is all of it.
    pub fn giving(&self) -> Option<Giving> {
        if self.kinds.is_empty() && self.since.is_none() && self.harp.is_none() {
            return None;
        }
        let usual = || Group::ALL.into_iter().filter(|group| group.is_usual());
        let groups = match self.kinds.is_empty() {
            true => usual().collect(),
            false => self.kinds.iter().copied().collect(),
        };
        Some(Giving {
            groups,
            since: self.since.clone(),
            harp: self.harp.clone(),
            ahead_min: 0,
        })
    }
}

/// `sevenflats diary show`.
#[derive(Debug, Args)]
pub struct ShowArguments {
    /// Only these strings: G3 or 4G, with commas between
    #[arg(long, value_name = "STRINGS", value_delimiter = ',')]
    pub string: Vec<StringName>,

    /// Only this harp, by the name that the diary has for it
    #[arg(long, value_name = "NAME")]
    pub harp: Option<String>,

    /// Each string's readings too, thinned to at most so many, 4 or more
    #[arg(long, value_name = "COUNT", value_parser = clap::value_parser!(u32).range(4..))]
    pub history: Option<u32>,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}

/// For programs.
#[derive(Clone, Copy, Debug, Args)]
pub struct JsonArguments {
    /// For programs: one JSON object a line
    #[arg(long)]
    pub json: bool,
}
