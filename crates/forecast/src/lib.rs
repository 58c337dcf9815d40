//! Where each string will stand at a given time and in a given air, how sure that is, and which to pluck first.
//!
//! This room never knows how records are kept, what o'clock it is, or how an answer is shown: what the diary knows of a
//! harp, the air and a moment come in, answers come out. It learns from what each string did between being left and being
//! found, and assumes of no string which way warmth or damp will take it; only that steel goes down as it warms is where
//! a wire begins (T. D. Rossing, *The Science of String Instruments*, 2010, Eq. 21.1).

mod ahead;
mod air_at;
mod change;
mod change_words;
mod class;
mod fall_back;
mod joint;
mod learned;
mod minutes;
mod minutes_words;
mod order;
mod own;
mod pace;
mod prior;
mod stretches;
mod student;
mod together;
mod usual;
mod words;

pub use ahead::{Ahead, Ask, Because, StringAhead};
pub use air_at::{AirNow, air_lately};
pub use change::{
    Change, ChangeAsk, ChangeCaution, LoadChange, Overshoot, Pass, PassesBecause, StringChange,
    change,
};
pub use change_words::ChangeWords;
pub use fall_back::{FellBack, Share};
pub use joint::Joint;
pub use learned::{Learned, learn};
pub use minutes::{Minutes, weights_of};
pub use minutes_words::{MinutesTold, Rests, SURE, minutes_words, rests_words, sure_words};
pub use order::{InTune, Next, in_tune, in_turn, next};
pub use pace::{USUAL_S, pace_s};
pub use prior::Prior;
pub use usual::usual_a4_hz;
pub use words::because_words;

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;

/// How the spread of a string's wandering grows with the days that pass, against one day: quicker at first than later. The
/// power is ours, between that of a walk (1) and that of a place it stays about (0).
///
/// A quarter of an hour counts at least.
fn growth(days: f64) -> f64 {
    days.max(0.01).powf(0.7)
}
