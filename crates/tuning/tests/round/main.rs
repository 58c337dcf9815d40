//! The round, held to readable tables of what happens and what must be said, and to what must hold for any events.
//!
//! Strings and figures are invented. The ear in front of the round is a formula (`table::ear`), harsher than the real
//! one: it remembers nothing, so that the round has to tell neighbours a semitone apart by itself.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test may fail loudly"
)]

mod a_player;
mod a_whole_round;
mod any_events;
mod high_strings;
mod new_and_broken;
mod orders_and_pace;
mod reference_pitch;
mod table;
mod take_the_a;
mod wrong_names;
