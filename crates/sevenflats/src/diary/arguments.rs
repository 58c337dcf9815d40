//! What may be said after `sevenflats diary`.

use std::path::PathBuf;

use clap::{Args, Subcommand};
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
    /// Write every record, a line each, to a file or to standard output
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

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub json: JsonArguments,
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
