//! WebAssembly on Debian, for root, where the target's standard library cannot be fetched: Debian's own compiler and the
//! sources of its library.

use std::path::{Path, PathBuf};
use std::process::Command;

use crate::program::{asked, run};
use crate::target::rustc;
use crate::trouble::Trouble;

/// Debian's compiler, called by its path: a toolchain manager's stand-ins would put another in its place.
pub(crate) const RUSTC: &str = "/usr/bin/rustc";
/// Debian's cargo.
pub(crate) const CARGO: &str = "/usr/bin/cargo";
/// The sources of the standard library, as the package lays them down.
const SOURCES: &str = "/usr/lib/rustlib/src/rust/library/std/Cargo.toml";

/// Installs the compiler where this is Debian and we are root, and gives the linker; `None` anywhere else.
pub(crate) fn install() -> Result<Option<PathBuf>, Trouble> {
    let is_debian = Path::new("/etc/debian_version").exists();
    let is_root = asked(Command::new("id").arg("-u")).as_deref() == Some("0");
    if !is_debian || !is_root {
        return Ok(None);
    }
    let own = linker();
    let mut missing = Vec::new();
    if ![RUSTC, CARGO, SOURCES]
        .iter()
        .all(|p| Path::new(p).exists())
    {
        missing.extend(["rustc-web", "cargo-web", "rust-web-src"]);
    }
    if own.is_none() {
        missing.push("lld");
    }
    if !missing.is_empty() {
        apt(&["update", "-q"])?;
        let install = ["install", "-y", "-q", "--no-install-recommends"];
        apt(&[&install[..], &missing[..]].concat())?;
    }
    Ok(own.or_else(|| on_path("wasm-ld")))
}

/// The linker that comes with the toolchain we run under, else Debian's.
fn linker() -> Option<PathBuf> {
    let root = rustc(&["--print", "sysroot"])?;
    let host = rustc(&["-vV"])?;
    let host = host.lines().find_map(|line| line.strip_prefix("host: "))?;
    let linker = Path::new(&root).join(format!("lib/rustlib/{host}/bin/rust-lld"));
    let own = linker.exists().then_some(linker);
    own.or_else(|| on_path("wasm-ld"))
}

fn on_path(program: &str) -> Option<PathBuf> {
    let found = asked(Command::new("which").arg(program))?;
    (!found.is_empty()).then(|| PathBuf::from(found))
}

fn apt(words: &[&str]) -> Result<(), Trouble> {
    let mut apt = Command::new("apt-get");
    apt.env("DEBIAN_FRONTEND", "noninteractive").args(words);
    run(&mut apt, "Is this Debian?")
}
