//! Puts the page inside the command: writes a table of the files in `web/dist`, in every kind of
//! build alike. Where that folder is missing the table is empty, and the command says so when asked.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    reason = "a build script reads the disk and speaks to cargo"
)]

use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

fn main() -> ExitCode {
    match put_inside() {
        Ok(()) => ExitCode::SUCCESS,
        Err(reason) => {
            eprintln!("the page cannot be put inside: {reason}");
            ExitCode::FAILURE
        }
    }
}

fn put_inside() -> Result<(), String> {
    let set = |name: &str| std::env::var(name).map_err(|error| format!("{name}: {error}"));
    let here = PathBuf::from(set("CARGO_MANIFEST_DIR")?);
    let web = here.ancestors().nth(2).unwrap_or(&here).join("web");
    for path in watched(&web) {
        println!("cargo::rerun-if-changed={}", path.display());
    }
    let table = table(&web.join("dist"))?;
    let place = Path::new(&set("OUT_DIR")?).join("page.rs");
    std::fs::write(&place, table).map_err(|error| format!("{}: {error}", place.display()))
}

/// What must change for the table to be made anew. Cargo takes a path that is missing for one that
/// always changes, and would build the command again each time: so, until there is a page, the
/// folder in which it will appear; and until that is there, the file that comes with it.
pub(crate) fn watched(web: &Path) -> Vec<PathBuf> {
    let repository = web.parent().unwrap_or(web);
    let place = [
        web.join("dist"),
        web.to_owned(),
        repository.join("Cargo.toml"),
    ]
    .into_iter()
    .find(|path| path.exists());
    [PathBuf::from("build.rs")]
        .into_iter()
        .chain(place)
        .collect()
}

/// The files of a folder, by name and in order, as a Rust expression. Names that begin with a dot
/// are left out.
pub(crate) fn table(folder: &Path) -> Result<String, String> {
    let mut files = Vec::new();
    if folder.is_dir() {
        // An absolute path, without `..`: the table is compiled elsewhere.
        let folder = folder
            .canonicalize()
            .map_err(|error| format!("{}: {error}", folder.display()))?;
        list(&folder, "", &mut files)?;
    }
    files.sort();
    let mut table = "&[\n".to_owned();
    for (name, path) in files {
        writeln!(table, "    ({name:?}, include_bytes!({path:?})),")
            .map_err(|error| error.to_string())?;
    }
    table.push_str("]\n");
    Ok(table)
}

fn list(folder: &Path, under: &str, files: &mut Vec<(String, PathBuf)>) -> Result<(), String> {
    let at = |error: std::io::Error| format!("{}: {error}", folder.display());
    for entry in std::fs::read_dir(folder).map_err(at)? {
        let path = entry.map_err(at)?.path();
        let name = path
            .file_name()
            .and_then(|name| name.to_str())
            .unwrap_or("?");
        if name.starts_with('.') {
            continue;
        }
        if !name
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || b"-._".contains(&b))
        {
            let what = "a name in the page is made of letters, digits, '-', '.' and '_'";
            return Err(format!("{}: {what}", path.display()));
        }
        let name = format!("{under}{name}");
        if path.is_dir() {
            list(&path, &format!("{name}/"), files)?;
        } else {
            files.push((name, path));
        }
    }
    Ok(())
}
