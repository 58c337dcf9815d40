//! Practice by ear: how fine an ear is, and what it made of two strings of a harp.
//!
//! Nothing here makes a sound: sizes go out to whoever lets it sound, answers and plucks come in. What is heard of a string
//! is not told before she has tuned it, but for one thing: that it stands far above its pitch.

mod attempt;
mod by_ear;
mod pair;
mod silent_ear;
mod threshold;

pub use attempt::{Attempt, FAR_UP_CENTS, Outcome, Stage, Told, Which};
pub use by_ear::{ByEar, Came, Guess, Said};
pub use pair::{Drill, Pair, pairs};
pub use silent_ear::SilentEar;
pub use threshold::{Estimate, SIZES_CENTS, Threshold};
