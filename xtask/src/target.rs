//! Which compiler can make WebAssembly here.

use std::path::PathBuf;
use std::process::Command;

use crate::debian;
use crate::program::asked;
use crate::trouble::Trouble;

/// The target of the page.
pub(crate) const TARGET: &str = "wasm32-unknown-unknown";

/// A compiler that can make WebAssembly.
pub(crate) enum Compiler {
    /// The one this runs under: its standard library for the target is there.
    Own,
    /// Debian's, which builds that library from its own sources; linked by this program.
    Debian {
        /// The linker.
        linker: PathBuf,
    },
}

/// The compiler that is used: our own, else Debian's where we may install it.
pub(crate) fn compiler() -> Result<Compiler, Trouble> {
    if has_target() {
        return Ok(Compiler::Own);
    }
    // registries can be out of reach; then there is nothing to say, and another way
    let _ = asked(Command::new("rustup").args(["target", "add", TARGET]));
    if has_target() {
        return Ok(Compiler::Own);
    }
    match debian::install()? {
        Some(linker) => Ok(Compiler::Debian { linker }),
        None => Err(Trouble::NoTarget),
    }
}

/// Whether the compiler's own standard library for the target is there.
fn has_target() -> bool {
    let libraries = rustc(&["--print", "target-libdir", "--target", TARGET]);
    let libraries = libraries.and_then(|path| std::fs::read_dir(path).ok());
    libraries.is_some_and(|files| {
        files
            .flatten()
            .any(|file| file.file_name().to_string_lossy().starts_with("libstd-"))
    })
}

/// What the compiler says to a question.
pub(crate) fn rustc(words: &[&str]) -> Option<String> {
    let rustc = std::env::var("RUSTC").unwrap_or_else(|_| "rustc".to_owned());
    asked(Command::new(rustc).args(words))
}
