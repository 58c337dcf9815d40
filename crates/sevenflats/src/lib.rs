//! The command: files and microphones in, readings out.
//!
//! This room only wires. It opens files, reads options, shows answers and ends with an exit code;
//! it never decides what a sound or a score means: that is told by the rooms to its left.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    reason = "this is the room that touches files, streams and the terminal, so that no other has to"
)]

use std::io::{Read, Write};

pub mod arguments;
pub mod demo;
pub mod diary;
pub mod entry;
#[cfg(test)]
mod example;
pub mod forecast;
pub mod handout;
pub mod hear;
pub mod json;
mod names;
pub mod plan;
pub mod printed;
pub mod programme;
pub mod regulation;
pub mod report;
pub mod sentence;
pub mod serve;
pub mod situation;
pub mod sound;
pub mod source;
mod strings;
pub mod trouble;
pub mod tune;
pub mod verdict;

use arguments::{Arguments, Command};
use trouble::{DONE, Trouble};

/// Does what the command line asks, and gives the exit code: 0 done, 1 something could not be read
/// or nothing was heard in it, 2 not understood.
pub fn run(
    arguments: &Arguments,
    input: &mut dyn FnMut() -> Box<dyn Read>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> u8 {
    let done = match &arguments.command {
        Command::Hear(arguments) => hear::hear(arguments, input, out, err),
        Command::Tune(arguments) => tune::tune(arguments, input, out, err),
        Command::Strings(arguments) => strings::strings(arguments, out).map(|()| Vec::new()),
        Command::Plan(arguments) => plan::plan(arguments, out).map(|()| Vec::new()),
        Command::Programme(arguments) => programme::programme(arguments, out),
        Command::Diary(arguments) => diary::diary(arguments, input, out),
        Command::Regulation(arguments) => regulation::regulation(arguments, input, out, err),
        Command::Forecast(arguments) => forecast::forecast(arguments, out),
        Command::Handout(arguments) => handout::handout(arguments, out).map(|()| Vec::new()),
        Command::Serve(arguments) => serve::serve(arguments, out, err).map(|()| Vec::new()),
    };
    let troubles = done.unwrap_or_else(|trouble| vec![trouble]);
    let code = troubles
        .iter()
        .map(Trouble::exit_code)
        .max()
        .unwrap_or(DONE);
    for trouble in troubles
        .iter()
        .filter(|trouble| trouble.exit_code() != DONE)
    {
        // Where even this cannot be written, the exit code still tells.
        let _ = writeln!(err, "sevenflats: {trouble}");
    }
    code
}
