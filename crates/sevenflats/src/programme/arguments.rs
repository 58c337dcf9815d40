//! What may be said after `sevenflats programme`.

use std::path::PathBuf;

use clap::Args;

use crate::arguments::ShownArguments;
use crate::plan::arguments::BrokenArguments;
use crate::printed::PrintArguments;

/// `sevenflats programme`.
#[derive(Debug, Args)]
pub struct ProgrammeArguments {
    /// The evening: a TOML file that names its pieces in order; --toml prints one to fill in
    #[arg(required_unless_present = "toml", value_name = "EVENING")]
    pub evening: Option<PathBuf>,

    /// Print an evening's file with comments, to fill in with your own
    #[arg(long, conflicts_with = "json")]
    pub toml: bool,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub broken: BrokenArguments,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub print: PrintArguments,

    #[command(flatten)]
    #[expect(
        missing_docs,
        reason = "a doc comment here would become the command's description"
    )]
    pub shown: ShownArguments,
}
