//! Reading scores of our own, a rule at a time: bytes in, notes out.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot prepare its case stops at once"
)]

mod any_bytes;
mod archives;
mod encodings;
mod graces;
mod harmonics;
mod limits;
mod marks;
mod midi;
mod new_marks;
mod parts;
mod passages;
mod pitches;
mod playing_order;
mod round_trip;
mod sweeps;
mod tempos;
mod ties;
mod times;
mod tremolos;
mod written;
