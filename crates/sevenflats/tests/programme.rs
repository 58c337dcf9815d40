//! `sevenflats programme` as a harpist and a program use it, on an evening of our own invention (`programme/`): three
//! pieces whose lowest strings want different pitches, one of them on paper only, one at 442. What is expected was found
//! by hand from the scores.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "makes files and runs the command"
)]

#[path = "programme/bad_input.rs"]
mod bad_input;
#[path = "support/command.rs"]
mod command;
#[path = "programme/evening.rs"]
mod evening;
#[path = "programme/printed.rs"]
mod printed;
#[path = "programme/tonight.rs"]
mod tonight;

use std::path::{Path, PathBuf};

use command::run;
use serde_json::Value;

/// The folder with the evening.
pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/programme")
}

/// The evening as JSON.
pub(crate) fn told(words: &[&str]) -> Value {
    let words = [&["programme", "evening.toml", "--json"], words].concat();
    let run = run(&folder(), &words, &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{words:?}");
    serde_json::from_str(&run.out).unwrap()
}

/// What a person reads.
pub(crate) fn page(words: &[&str]) -> String {
    let words = [&["programme", "evening.toml"], words].concat();
    let run = run(&folder(), &words, &[]);
    assert_eq!((run.code, run.err.as_str()), (Some(0), ""), "{words:?}");
    run.out
}

/// The same evening in a folder of its own, to be spoilt.
pub(crate) fn copied() -> tempfile::TempDir {
    let copy = tempfile::tempdir().unwrap();
    for entry in std::fs::read_dir(folder()).unwrap() {
        let entry = entry.unwrap();
        std::fs::copy(entry.path(), copy.path().join(entry.file_name())).unwrap();
    }
    copy
}
