//! Practice by ear: how fine an ear is, and what it made of two strings of a harp.
//!
//! Nothing here makes or hears a sound: sizes go out to whoever lets it sound, answers and readings come in.

mod by_ear;
mod threshold;

pub use by_ear::{ByEar, Came, Guess, Said};
pub use threshold::{Estimate, SIZES_CENTS, Threshold};
