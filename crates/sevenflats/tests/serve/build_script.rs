//! The build script's table: what of a folder comes into the command.

#[path = "../../build.rs"]
#[allow(dead_code, reason = "its `main` is cargo's to call")]
mod script;

use script::{table, watched};
use tempfile::tempdir;

#[test]
fn a_folder_that_is_missing_or_empty_is_an_empty_table() {
    let folder = tempdir().unwrap();
    for path in [folder.path().join("dist"), folder.path().to_owned()] {
        assert_eq!(table(&path).unwrap(), "&[\n]\n");
    }
}

#[test]
fn every_file_is_in_the_table_in_order_under_its_name() {
    let folder = tempdir().unwrap();
    std::fs::create_dir_all(folder.path().join("assets")).unwrap();
    for name in ["sw.js", "index.html", ".hidden", "assets/a-D3fXa9Qb.js.br"] {
        std::fs::write(folder.path().join(name), name).unwrap();
    }
    let table = table(folder.path()).unwrap();
    let names: Vec<&str> = table
        .lines()
        .filter_map(|line| line.trim().strip_prefix("(\"")?.split('"').next())
        .collect();
    assert_eq!(
        names,
        ["assets/a-D3fXa9Qb.js.br", "index.html", "sw.js"],
        "{table}"
    );
}

#[test]
fn a_name_that_an_address_would_have_to_escape_is_refused() {
    let folder = tempdir().unwrap();
    std::fs::write(folder.path().join("two words.js"), "").unwrap();
    let reason = table(folder.path()).unwrap_err();
    assert!(
        reason.contains("two words.js: a name in the page is made of letters"),
        "{reason}"
    );
}

/// A path that is missing would have cargo build the command anew each time (The Cargo Book, Build
/// Scripts, rerun-if-changed).
#[test]
fn nothing_is_watched_that_is_missing() {
    let folder = tempdir().unwrap();
    let web = folder.path().join("web");
    assert_eq!(watched(&web).len(), 1);
    let manifest = folder.path().join("Cargo.toml");
    std::fs::write(&manifest, "").unwrap();
    assert_eq!(watched(&web)[1..], [manifest]);
    std::fs::create_dir_all(&web).unwrap();
    assert_eq!(watched(&web).last(), Some(&web));
    std::fs::create_dir_all(web.join("dist")).unwrap();
    assert_eq!(watched(&web)[1..], [web.join("dist")]);
}
