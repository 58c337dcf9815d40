//! `sevenflats hear`, `strings` and `regulation` from end to end: one program, for each would be built and linked by itself.
#![allow(
    clippy::disallowed_methods,
    clippy::disallowed_macros,
    clippy::disallowed_types,
    clippy::unwrap_used,
    clippy::panic,
    dead_code,
    reason = "tests make files, run the command and print its figures; each uses a part of their support"
)]

mod bad_input;
#[path = "../support/command.rs"]
mod command;
mod demo;
mod diary;
mod forecast;
mod handout;
mod hear;
#[path = "../support/recorded.rs"]
mod recorded;
mod recordings;
mod regulation;
#[path = "../support/still_missed.rs"]
mod still_missed;
mod strings;
#[path = "../support/wav.rs"]
mod wav;
