//! Builds the page: `cargo xtask page`.
//!
//! This room never knows a harp or a sound. It starts other programs: cargo for the WebAssembly, npm for the page.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_types,
    clippy::disallowed_macros,
    reason = "building the page is disk, programs and their output"
)]

mod debian;
mod program;
mod target;
mod trouble;
mod wasm;
mod web;
mod weigh;

use std::path::{Path, PathBuf};
use std::process::ExitCode;

const HELP: &str = "cargo xtask page   build the page into web/dist
cargo xtask wasm   only the WebAssembly and its declarations, into web/src/made
cargo xtask weigh  what a first visit loads of web/dist, and whether it is too much";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let done = match words.iter().map(String::as_str).collect::<Vec<_>>()[..] {
        ["page"] => wasm::build(&root()).and_then(|()| web::build(&root())),
        ["wasm"] => wasm::build(&root()),
        ["weigh"] => weigh::first_load(&root().join("web/dist")),
        _ => {
            println!("{HELP}");
            return ExitCode::from(2);
        }
    };
    match done {
        Ok(()) => ExitCode::SUCCESS,
        Err(trouble) => {
            eprintln!("{trouble}");
            ExitCode::FAILURE
        }
    }
}

/// The folder of the whole project.
fn root() -> PathBuf {
    let here = Path::new(env!("CARGO_MANIFEST_DIR"));
    here.parent().unwrap_or(here).to_owned()
}
