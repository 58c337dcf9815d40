//! Which string sounded, how far off, how sure.
//!
//! This room knows the strings that stand and the sound that was heard. It never knows scores or storage.

mod ear;
mod last_word;
mod measure;
mod median;
mod naming;
pub mod practice;
mod reading;
mod refusal;
pub mod regulation;
mod rings_on;
pub mod round;
mod sitting;

pub use ear::{Ear, EarError, Listening};
pub use reading::{Direction, Heard, Partial, Reading, Reason, Refused, Warning, WarningKind};
pub use sitting::{Happened, Sitting};
