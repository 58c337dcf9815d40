//! Every check value in `reference/` that belongs to pitch and harp, computed again.
//!
//! Each folder holds its cases and their sources; each case names a law, and the law is computed
//! here with the functions of the crates. A folder without cases, a law that is not known, a case
//! without a source and a value that does not come out are all failures.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    clippy::disallowed_methods,
    reason = "reads the data of the repository it stands in, and stops where it cannot"
)]

mod cases;
mod certificates;
mod compass;
mod hearing_limits;
mod pitch_arithmetic;
mod recordings;
mod string_mechanics;
mod synthetic_harp;
mod winds_and_warmth;
