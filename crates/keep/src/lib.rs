//! What a harp needs, from what its diary knows of it: strings that are due, spares and what they cover, what may be
//! wrong with a string, what a check of the mechanism found and whether it was mended, how a new string settles; and how a
//! player's rounds and practice went, week by week.
//!
//! This room never knows how a record is kept, what o'clock it is, or how an answer is shown: what is known, the harp and
//! the moment come in, and answers come out that hold what they rest on. It never judges a string by a typical set, only
//! by its own past, the past of its place, and its neighbours over the same time; and what it suspects is a question.

mod age;
mod before_regulation;
mod breaks;
mod cover;
mod due;
mod intervals;
mod mechanism;
mod mixed;
mod months;
mod moves;
mod order;
mod progress;
mod restringing;
mod settling;
mod shelf_life;
mod spare;
mod spread;
mod strung;
mod suspect;
mod words;

pub use age::{Age, age};
pub use before_regulation::{BeforeRegulation, Time, before_regulation};
pub use breaks::{Breaks, breaks};
pub use cover::{By, Covered, cover};
pub use due::{DueString, State, due};
pub use intervals::{Interval, Intervals, Mark, Register, Use};
pub use mechanism::{Finding, Mended, Whose, findings};
pub use mixed::{MixedOctave, mixed};
pub use months::{Month, months};
pub use order::{Order, to_order};
pub use progress::{
    EarWeek, Guesses, HarpProgress, HarpWeek, Middle, Progress, Questions, Share, WorstString,
    progress,
};
pub use restringing::{Caution, Step, StepKind, restringing};
pub use settling::{STEADY_CENTS_PER_DAY, Settling, settling};
pub use shelf_life::{Shelf, ShelfLife};
pub use spare::Spare;
pub use strung::strung;
pub use suspect::{Suspected, Suspicion, suspected};
pub use words::{
    caution, cover_words, due_words, finding, limits, mark_words, mixed_words, question,
    settling_words, shelf_words, step_words, time_words,
};

/// Seconds of a day.
const DAY_S: f64 = 86_400.0;
/// Days of a year.
const YEAR: f64 = 365.25;
