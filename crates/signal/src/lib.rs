//! Samples in; onsets, partials, sounding pitch and decay out, each with its uncertainty.
#![allow(missing_docs, reason = "being built")]

pub mod blocks;
pub mod spectrum;
pub mod comb;
pub mod fit;
pub mod small;
