//! What may be said after `sevenflats serve`.

use std::path::PathBuf;

use clap::Args;

/// How the command ends.
pub const EXIT_CODES: &str = "Exit codes: 0 stopped as you asked; 1 there is no page inside, or the port cannot be had; \
2 the command is not understood.";

/// `sevenflats serve`.
#[derive(Clone, Debug, Default, Args)]
pub struct ServeArguments {
    /// The port, 0 for any that is free [default: 4747, or the next that is free]
    #[arg(long, value_name = "PORT")]
    pub port: Option<u16>,

    /// The diary that the page exchanges its records with [default: that of 'sevenflats diary']
    #[arg(long, value_name = "FILE", conflicts_with = "no_diary")]
    pub diary: Option<PathBuf>,

    /// Keep no diary here: what the page writes stays in the browser
    #[arg(long)]
    pub no_diary: bool,

    /// For programs: the address as one JSON object
    #[arg(long)]
    pub json: bool,
}
