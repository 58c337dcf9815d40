//! The diary on a disk: SQLite, and the only SQL.
//!
//! This room never knows tuning, scores or the clock: it keeps lines and gives them back. What a line says, which of two
//! stays, and what is known of a string is the diary's to tell. The time comes as an argument.
//!
//! A file that is open is whole: whatever was written is written in one transaction, with a journal beside it, so that a
//! process that is killed or a disk that is full leaves the diary as it was.
//!
//! ```
//! use diary::{Entry, HarpKept};
//! use store::Store;
//! # let folder = tempfile::tempdir()?;
//! # let path = folder.path().join("diary.sqlite");
//! let mut store = Store::open(&path)?;
//! let little = Entry::Harp(HarpKept { harp: "little".to_owned(), toml: "kind = \"lever34\"".to_owned() });
//! let written = store.append(&"2026-11-26T18:40:00Z".parse()?, &[little])?;
//! assert_eq!((written.len(), written[0].seq), (1, 1));
//! assert_eq!(store.diary()?.harps()[0].harp, "little");
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    reason = "one of the few rooms that touch a disk"
)]

mod append;
mod backup;
mod check;
mod error;
mod held;
mod merge;
mod migration;
mod open;
mod read;
mod restore;

pub use check::Looked;
pub use error::StoreError;
pub use open::Store;
pub use restore::{Restored, restore};
