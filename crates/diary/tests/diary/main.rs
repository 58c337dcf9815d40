//! The diary, held to lines that must read for ever, to any events, to any order of merging, and to made-up rounds.
//!
//! Strings, players and figures are invented.
#![allow(
    clippy::disallowed_macros,
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly; prints how much is left out"
)]

mod a_player;
mod any_events;
mod clocks;
mod drawer;
mod ends;
mod first_version;
mod giving;
mod heard;
mod held;
mod importing;
mod kinds;
mod knowing;
mod leaves;
mod merging;
mod rounds;
mod samples;
mod thinned;
mod written;
