//! The house rules that no compiler holds: who may depend on whom, what the pure rooms may use, how
//! rooms are named. Read from `cargo metadata` and from the sources themselves.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "reads the repository it stands in"
)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use std::process::Command;

use serde_json::Value;

/// The rooms from left to right: each may depend on those to the left of its own column, never on
/// one in it. `docs/architecture.md` tells why.
const COLUMNS: [&[&str]; 8] = [
    &["pitch"],
    &["signal", "score", "harp"],
    &["pluck", "tuning", "pedals"],
    &["diary"],
    &["keep", "forecast"],
    &["sheet"],
    &["store", "wasm"],
    &["sevenflats"],
];

/// A pair that the columns would allow and the design does not.
const NEVER: [(&str, &str); 1] = [("sevenflats", "wasm")];

/// Not a room: it builds the page, and knows none of them.
const BUILDER: &str = "xtask";

/// Rooms that may know serde.
const SERDE: [&str; 3] = ["diary", "wasm", "sevenflats"];

/// Rooms that touch disk, clock or network; all others are pure.
const IMPURE: [&str; 2] = ["store", "sevenflats"];

/// What a pure room may not name: nothing that WebAssembly lacks, nothing that differs from run to
/// run, nothing that speaks to the machine.
const BANNED: [&str; 12] = [
    "std::fs",
    "std::net",
    "std::time",
    "std::thread",
    "std::process",
    "std::env",
    "std::os",
    "std::io",
    "std::path",
    "HashMap",
    "HashSet",
    "extern \"C\"",
];

/// The crates from outside that each pure room may use in what it ships.
const FROM_OUTSIDE: [(&str, &[&str]); 12] = [
    ("pitch", &["thiserror"]),
    ("signal", &["realfft", "rustfft", "thiserror"]),
    (
        "score",
        &["midly", "miniz_oxide", "rawzip", "roxmltree", "thiserror"],
    ),
    ("harp", &["thiserror", "toml_edit"]),
    ("pluck", &["realfft", "thiserror"]),
    ("tuning", &["thiserror"]),
    ("pedals", &[]),
    ("diary", &["serde", "serde_json", "thiserror"]),
    ("keep", &[]),
    ("forecast", &["nalgebra"]),
    ("sheet", &["krilla", "thiserror", "ttf-parser"]),
    ("wasm", &["serde", "thiserror", "tsify", "wasm-bindgen"]),
];

/// Longest source file, in lines; at 500 one asks whether two ideas share it.
const LONGEST_FILE: usize = 500;
/// Names that say nothing about the idea inside.
const NO_NAMES: [&str; 5] = ["mod.rs", "utils.rs", "util.rs", "common.rs", "helpers.rs"];

#[test]
fn rooms_depend_leftwards_only() {
    let rooms = rooms();
    for (room, dependencies) in &rooms {
        for dependency in dependencies.iter().filter(|name| column(name).is_some()) {
            assert!(
                may_depend(room, dependency),
                "{room} depends on {dependency}, which is not to its left"
            );
        }
    }
}

#[test]
fn who_builds_the_page_knows_no_room() {
    let all = all_packages();
    let builder = all.iter().find(|p| text(&p["name"]) == BUILDER).unwrap();
    for dependency in builder["dependencies"].as_array().unwrap() {
        let name = text(&dependency["name"]);
        assert!(column(name).is_none(), "{BUILDER} knows {name}");
    }
}

#[test]
fn the_rule_itself_refuses_what_the_design_forbids() {
    for (room, dependency) in [
        ("pitch", "harp"),
        ("signal", "harp"),
        ("pluck", "tuning"),
        ("store", "wasm"),
        ("wasm", "store"),
        ("sevenflats", "wasm"),
        ("diary", "sheet"),
        ("diary", "keep"),
        ("keep", "forecast"),
        ("forecast", "keep"),
        ("sheet", "store"),
        ("sheet", "wasm"),
        ("harp", "harp"),
    ] {
        assert!(!may_depend(room, dependency), "{room} → {dependency}");
    }
    for (room, dependency) in [
        ("tuning", "pitch"),
        ("sheet", "harp"),
        ("wasm", "sheet"),
        ("keep", "diary"),
        ("sheet", "keep"),
        ("sevenflats", "store"),
    ] {
        assert!(may_depend(room, dependency), "{room} → {dependency}");
    }
}

#[test]
fn folder_package_and_import_have_one_unprefixed_name() {
    for package in packages() {
        let name = text(&package["name"]);
        let folder = folder(&package);
        assert_eq!(
            folder.file_name().unwrap().to_str(),
            Some(name),
            "folder of {name}"
        );
        assert!(column(name).is_some(), "{name} is no room of the design");
        assert!(
            name.chars().all(|c| c.is_ascii_lowercase()),
            "{name} is not one plain word"
        );
        for target in package["targets"].as_array().unwrap() {
            let kind = text(&target["kind"][0]);
            if kind == "lib" || kind == "bin" {
                assert_eq!(text(&target["name"]), name, "import name of {name}");
            }
        }
    }
}

#[test]
fn only_the_command_is_published() {
    for package in packages() {
        let name = text(&package["name"]);
        let published = package["publish"].is_null();
        assert_eq!(published, name == "sevenflats", "publish of {name}");
    }
}

#[test]
fn only_three_rooms_know_serde() {
    for (room, dependencies) in rooms() {
        if !SERDE.contains(&room.as_str()) {
            let serde = dependencies.iter().find(|name| name.starts_with("serde"));
            assert_eq!(serde, None, "{room} knows {serde:?}");
        }
    }
}

#[test]
fn pure_rooms_ship_nothing_from_outside_but_what_is_listed() {
    for package in packages() {
        let room = text(&package["name"]);
        let Some((_, allowed)) = FROM_OUTSIDE.iter().find(|(name, _)| *name == room) else {
            assert!(!is_pure(room), "{room}: list what it may use from outside");
            continue;
        };
        for dependency in package["dependencies"].as_array().unwrap() {
            let name = text(&dependency["name"]);
            let shipped = dependency["kind"].is_null();
            assert!(
                !shipped || column(name).is_some() || allowed.contains(&name),
                "{room} ships {name}: is it pure, and does WebAssembly have what it needs?"
            );
        }
    }
}

#[test]
fn pure_rooms_name_nothing_that_webassembly_lacks() {
    let mut read = 0;
    for package in packages() {
        let room = text(&package["name"]).to_owned();
        if !is_pure(&room) {
            continue;
        }
        for file in sources(&folder(&package).join("src")) {
            read += 1;
            let found = banned(&std::fs::read_to_string(&file).unwrap());
            assert!(found.is_empty(), "{}: {found:?}", file.display());
        }
    }
    assert!(read >= 5, "only {read} source files of pure rooms found");
}

#[test]
fn the_search_finds_what_it_looks_for() {
    assert_eq!(banned("use std::fs::File;"), ["std::fs"]);
    assert_eq!(banned("use std::{fmt, thread};"), ["std::thread"]);
    assert_eq!(
        banned("use std::{\n    collections::{BTreeMap, HashMap},\n    time::Instant,\n};"),
        ["std::time", "HashMap"]
    );
    assert!(banned("// std::fs is not for us\nuse std::fmt;").is_empty());
}

#[test]
fn every_room_says_what_it_never_knows() {
    for package in packages() {
        let room = text(&package["name"]);
        let root = std::fs::read_to_string(folder(&package).join("src/lib.rs")).unwrap();
        let words: Vec<&str> = root
            .lines()
            .take_while(|line| line.starts_with("//!"))
            .collect();
        let words = words.join(" ");
        assert!(
            words.contains("never"),
            "{room} does not say what it never knows"
        );
    }
}

#[test]
fn files_are_short_and_named_for_their_idea() {
    for package in packages() {
        for file in sources(&folder(&package)) {
            let name = file.file_name().unwrap().to_str().unwrap();
            assert!(!NO_NAMES.contains(&name), "{}", file.display());
            let lines = std::fs::read_to_string(&file).unwrap().lines().count();
            assert!(
                lines <= LONGEST_FILE,
                "{} has {lines} lines",
                file.display()
            );
        }
    }
}

/// Declarations are made by name alone: of two types of one name, in two files, the page would read the one or the other.
#[test]
fn what_the_page_reads_has_one_name() {
    let mut seen = BTreeMap::new();
    for file in sources(&repository().join("crates/wasm/src")) {
        for name in told_to_the_page(&std::fs::read_to_string(&file).unwrap()) {
            if let Some(other) = seen.insert(name.clone(), file.clone()) {
                panic!("{name} is in {} and {}", other.display(), file.display());
            }
        }
    }
    assert!(seen.len() > 50, "{seen:?}");
    let two = "#[derive(Tsify)]\npub struct Place {\n}\n#[wasm_bindgen]\npub fn written() {}\n";
    assert_eq!(told_to_the_page(two), ["Place", "written"]);
}

/// The types and functions of a source that the page reads: those under a derived `Tsify` or a `wasm_bindgen` of their own.
fn told_to_the_page(source: &str) -> Vec<String> {
    let mut told = false;
    let mut names = Vec::new();
    for line in source.lines() {
        told |= line.starts_with("#[wasm_bindgen]")
            || line.starts_with("#[derive") && line.contains("Tsify");
        let item = ["pub struct ", "pub enum ", "pub fn "];
        if let Some(rest) = item.iter().find_map(|item| line.strip_prefix(item)) {
            let name = rest
                .split(|c: char| !c.is_alphanumeric() && c != '_')
                .next();
            names.extend(name.filter(|_| told).map(str::to_owned));
        }
        if !line.starts_with('#') && !line.starts_with("///") {
            told = false;
        }
    }
    names
}

#[test]
fn reference_data_have_a_birth_certificate() {
    let reference = repository().join("reference");
    let mut found = 0;
    for folder in std::fs::read_dir(&reference).unwrap() {
        let folder = folder.unwrap().path();
        if !folder.is_dir() {
            continue;
        }
        found += 1;
        let certificate = folder.join("SOURCE.toml");
        let words = std::fs::read_to_string(&certificate)
            .unwrap_or_else(|error| panic!("{}: {error}", certificate.display()));
        for key in ["title", "licence"] {
            assert!(
                words.contains(key),
                "{} names no {key}",
                certificate.display()
            );
        }
    }
    assert!(found > 0, "no reference data found");
}

fn may_depend(room: &str, dependency: &str) -> bool {
    let leftwards = match (column(room), column(dependency)) {
        (Some(own), Some(other)) => other < own,
        _ => false,
    };
    leftwards && !NEVER.contains(&(room, dependency))
}

fn column(room: &str) -> Option<usize> {
    COLUMNS.iter().position(|column| column.contains(&room))
}

fn is_pure(room: &str) -> bool {
    !IMPURE.contains(&room)
}

/// The banned names in a source, comments left aside, `use std::{…}` taken apart.
fn banned(source: &str) -> Vec<&'static str> {
    let code: String = source
        .lines()
        .map(|line| line.split("//").next().unwrap_or_default())
        .collect::<Vec<_>>()
        .join("\n");
    let in_braces: BTreeSet<String> = code
        .split("use std::{")
        .skip(1)
        .filter_map(|rest| rest.split(';').next())
        .flat_map(|list| list.split(|c: char| !c.is_alphanumeric() && c != '_'))
        .map(|word| format!("std::{word}"))
        .collect();
    BANNED
        .into_iter()
        .filter(|name| code.contains(name) || in_braces.contains(*name))
        .collect()
}

/// Every room, with all that it depends on: to ship, to build and to test.
fn rooms() -> BTreeMap<String, BTreeSet<String>> {
    let packages = packages();
    packages
        .iter()
        .map(|package| {
            let dependencies = package["dependencies"].as_array().unwrap();
            let names = dependencies
                .iter()
                .map(|dependency| text(&dependency["name"]).to_owned());
            (text(&package["name"]).to_owned(), names.collect())
        })
        .collect()
}

fn packages() -> Vec<Value> {
    let mut rooms = all_packages();
    rooms.retain(|package| text(&package["name"]) != BUILDER);
    rooms
}

fn all_packages() -> Vec<Value> {
    let cargo = std::env::var("CARGO").unwrap_or_else(|_| "cargo".to_owned());
    let output = Command::new(cargo)
        .args([
            "metadata",
            "--format-version",
            "1",
            "--no-deps",
            "--offline",
        ])
        .current_dir(repository())
        .output()
        .unwrap();
    assert!(
        output.status.success(),
        "{}",
        String::from_utf8_lossy(&output.stderr)
    );
    let metadata: Value = serde_json::from_slice(&output.stdout).unwrap();
    let packages = metadata["packages"].as_array().unwrap().clone();
    assert!(packages.len() >= 6, "only {} rooms found", packages.len());
    packages
}

fn folder(package: &Value) -> PathBuf {
    Path::new(text(&package["manifest_path"]))
        .parent()
        .unwrap()
        .to_owned()
}

fn sources(folder: &Path) -> Vec<PathBuf> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            files.extend(sources(&path));
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            files.push(path);
        }
    }
    files
}

fn repository() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("../..")
        .canonicalize()
        .unwrap()
}

fn text(value: &Value) -> &str {
    value.as_str().unwrap()
}
