//! The program `sevenflats`.
#![allow(
    clippy::disallowed_methods,
    reason = "here the machine is handed to the room that may touch it"
)]

use std::io::{self, BufWriter, Read, Write};
use std::process::ExitCode;

use clap::Parser;
use sevenflats::arguments::Arguments;

fn main() -> ExitCode {
    let arguments = Arguments::parse();
    let mut out = BufWriter::new(io::stdout().lock());
    let mut input = || Box::new(io::stdin()) as Box<dyn Read>;
    let code = sevenflats::run(&arguments, &mut input, &mut out, &mut io::stderr());
    // What is left in the buffer; whoever closed the pipe has read enough.
    let _ = out.flush();
    ExitCode::from(code)
}
