//! Real strings: 23 of a concert harp, as WAV and as MP3, each in a file named for what it sounds
//! (`./dev test` fetches them; their source and licence stand in `reference/`). A missing file is a
//! failure. Sampled notes are written as a keyboard would, so they are heard on a harp whose
//! pedals stand at natural.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "reads recordings and runs the command"
)]

#[path = "support/command.rs"]
mod command;

use std::path::{Path, PathBuf};

use command::run;

/// Strings in each package.
const STRINGS: usize = 23;
/// The one string of which even a careful analysis finds the first partial doubtful: it may be
/// refused, never misnamed.
const MAY_BE_REFUSED: &str = "G1";

fn check(folder: &str, extension: &str) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../../target/recordings")
        .join(folder);
    let files = files(&folder, extension);
    assert_eq!(
        files.len(),
        STRINGS,
        "in {}: run ./dev test, which fetches them",
        folder.display()
    );
    let mut wrong = Vec::new();
    for file in files {
        let label = file.file_stem().unwrap().to_str().unwrap();
        let words = [
            "hear",
            "--json",
            "--position",
            "natural",
            file.to_str().unwrap(),
        ];
        let run = run(&folder, &words, &[]);
        let finals = run
            .of_kind("reading")
            .into_iter()
            .filter(|line| line["final"] == true);
        let named: Vec<String> = finals
            .map(|line| line["string"].as_str().unwrap_or("none").to_owned())
            .collect();
        let right = run.code == Some(0) && named.iter().all(|name| name == label);
        if !right || (named.is_empty() && label != MAY_BE_REFUSED) {
            wrong.push(format!("{label}: {named:?} {}", run.err));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

fn files(folder: &Path, extension: &str) -> Vec<PathBuf> {
    let Ok(entries) = std::fs::read_dir(folder) else {
        return Vec::new();
    };
    let paths = entries.map(|entry| entry.unwrap().path());
    paths
        .filter(|path| path.extension().is_some_and(|found| found == extension))
        .collect()
}

#[test]
fn no_string_of_a_real_harp_is_misnamed() {
    check("harp-wav", "wav");
}

#[test]
fn no_string_of_a_real_harp_is_misnamed_after_compression() {
    check("harp-mp3", "mp3");
}
