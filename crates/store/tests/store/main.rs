//! The diary in its file: merged in any order, killed while it writes, on a full disk, damaged, taken back from a backup.
//!
//! All records are invented.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "tests make files and start themselves again to be killed"
)]

mod full;
mod held;
mod kept;
mod killed;
mod merged;
mod refused;
mod restored;
mod samples;
