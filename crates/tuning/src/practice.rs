//! Practice: by ear, how fine an ear is, what it made of two strings of a harp, beats to be counted; and questions about the
//! harp itself.
//!
//! Nothing here makes a sound: sizes and pitches go out to whoever lets them sound, answers and plucks come in. What is heard
//! of a string is not told before she has tuned it, but for one thing: that it stands far above its pitch.

mod attempt;
mod blind;
mod by_ear;
mod counted;
mod draws;
mod pair;
pub mod quiz;
mod silent_ear;
mod threshold;

pub use attempt::{Attempt, FAR_UP_CENTS, Outcome, Stage, Told, Which};
pub use blind::{Blind, BlindPair, FEWEST_ANSWERS, OCTAVES, SizeAnswered};
pub use by_ear::{ByEar, Came, Guess, Said};
pub use counted::{FASTEST_PER_S, Interval, SLOWEST_PER_S, ToCount, to_count};
pub use pair::{Drill, Pair, pairs};
pub use silent_ear::SilentEar;
pub use threshold::{Estimate, SIZES_CENTS, Threshold};
