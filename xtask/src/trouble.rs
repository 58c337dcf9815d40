//! What can go wrong, and what to do about it.

use std::path::PathBuf;

/// Why the page was not built.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Trouble {
    /// The compiler cannot make WebAssembly.
    #[error(
        "This Rust toolchain lacks the target wasm32-unknown-unknown. Run: rustup target add wasm32-unknown-unknown"
    )]
    NoTarget,
    /// A program is not there.
    #[error("{program} did not start ({reason}). {advice}")]
    NotStarted {
        /// Which.
        program: String,
        /// Why.
        reason: std::io::Error,
        /// What to do.
        advice: &'static str,
    },
    /// A program failed; it has said why.
    #[error("{program} failed: see above")]
    Failed {
        /// Which, with its words.
        program: String,
    },
    /// The declarations could not be made.
    #[error("the bindings of {} could not be made: {reason}", path.display())]
    Bindings {
        /// The module.
        path: PathBuf,
        /// Why.
        reason: String,
    },
    /// A first visit loads too much.
    #[error(
        "a first visit loads {bytes} bytes, at most {most}: what is not needed at once goes to later/ (web/vite.config.ts)"
    )]
    TooHeavy {
        /// How much, packed.
        bytes: u64,
        /// How much is allowed.
        most: u64,
    },
    /// What is loaded later is too much.
    #[error("what is loaded later weighs {bytes} bytes, at most {most}")]
    TooHeavyLater {
        /// How much, packed.
        bytes: u64,
        /// How much is allowed.
        most: u64,
    },
    /// There is no built page.
    #[error("{} holds no whole page: build it with 'cargo xtask page'", path.display())]
    NoPage {
        /// Where it was looked for.
        path: PathBuf,
    },
    /// A file could not be read or written.
    #[error("{}: {reason}", path.display())]
    File {
        /// Which.
        path: PathBuf,
        /// Why.
        reason: std::io::Error,
    },
}
