//! `sevenflats plan` as a program and a person use it, on scores of our own (`plan/scores`): invented
//! music, each of which tries one thing. What is expected was found by hand, or by enumeration where
//! that is said.
#![allow(
    clippy::disallowed_types,
    clippy::disallowed_methods,
    clippy::unwrap_used,
    clippy::panic,
    reason = "makes files and runs the command"
)]

#[path = "plan/asked.rs"]
mod asked;
#[path = "plan/bad_input.rs"]
mod bad_input;
#[path = "support/command.rs"]
mod command;
#[path = "plan/contract.rs"]
mod contract;
#[path = "plan/etouffes.rs"]
mod etouffes;
#[path = "plan/glissandi.rs"]
mod glissandi;
#[path = "plan/harmonics.rs"]
mod harmonics;
#[path = "plan/homophones.rs"]
mod homophones;
#[path = "plan/idle_pedals.rs"]
mod idle_pedals;
#[path = "plan/levers.rs"]
mod levers;
#[path = "plan/repeats.rs"]
mod repeats;
#[path = "plan/tuned_by_key.rs"]
mod tuned_by_key;
