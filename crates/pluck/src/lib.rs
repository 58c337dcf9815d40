//! Plucked strings made of numbers: a harp and a seed in, samples and their exact truth out. This crate never knows how
//! samples are read, judged or stored; it touches no disk, no clock and no source of chance but the seed it is given.
//!
//! Everything it makes is invented: no sound here was ever recorded, and whoever shows it says so.
//!
//! - [`Set`]: eight sets of single plucks (47 strings C1–G7), from clean partials in noise to a full orchestra pit, each
//!   with its [`Truth`] and the bound on how well its pitch can be known.
//! - [`Round`]: a whole harp plucked in an order, pins turned, strings ringing on, prompts, speech, a room; its truth pluck by
//!   pluck. [`demo_round`] is one to show.
//! - [`player`]: made-up players, from a beginner to a professional, each of whom makes a [`Round`] and says what she means.
//! - [`made_in_turn`], [`made_together`]: strings for practice by ear, quiet and soft at their beginning.
//! - [`generator`]: the stream of draws behind them.

pub mod generator;
pub mod player;

mod body;
mod carrier;
mod concert_harp;
mod demo;
mod drawn;
mod made;
mod noise;
mod pit;
mod round;
mod set;
mod sympathy;
mod truth;

pub use concert_harp::{microphone, strings, typical_b, typical_t60};
pub use demo::{demo_round, tuned_demo};
pub use made::{
    FADE_IN_S, FADE_OUT_S, LOUDEST, TOGETHER_S, made_in_turn, made_sample, made_together,
};
pub use round::{Event, Performance, Plucked, Room, Round, RoundError, RoundString, What};
pub use set::{Pluck, PluckError, Set, UnknownSet};
pub use truth::{Partial, Truth};

/// Samples per second of the single plucks of a [`Set`].
pub const RATE_HZ: u32 = 48_000;
