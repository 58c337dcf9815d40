//! Pedals and levers: notes and a harp in, the plan and its cost itemised out.
//!
//! This room never knows a sound, a file or storage. It has no clock: where the work must end, it
//! counts it. Prices are whole numbers, so that a page and a desk add up to the same sums.

// what tests make of pieces is written as by any user of this room
#[cfg(test)]
extern crate self as pedals;

mod account;
mod again;
mod asked;
pub mod at_passes;
mod between_movements;
mod bound;
mod by_key;
mod code;
mod contradicted;
mod cost;
mod counted;
mod demand;
pub mod discless;
mod each_change;
mod feet;
mod filled;
mod footwork;
mod from_score;
mod frontier;
mod hindsight;
mod idle;
pub mod in_the_score;
mod lever;
mod movements;
mod paper_part;
mod pinned;
mod plan;
mod planner;
mod playings;
mod prices;
mod problem;
mod programme;
mod reach;
mod ready;
mod reason;
mod repeats;
mod replay;
mod ringing;
mod rows;
mod search;
mod solve;
mod sounding;
mod strings_played;
mod survive;
mod tempo;
mod trail;
mod tuned;
mod view;
mod ways;
mod weights;
mod wishes;
mod written;

pub use again::Planner;
pub use between_movements::set_between;
pub use by_key::Tuned;
pub use code::SETTINGS;
pub use cost::{Cost, Item};
pub use counted::{counted, counted_in};
pub use demand::{Attack, Demand, Hand, Moment, Quarters, Strength};
pub use each_change::price_of_each;
pub use feet::{Feet, Foot};
pub use filled::moments_within;
pub use idle::stand_as_in_the_key;
pub use lever::{
    Flip, LeverCannot, LeverCost, LeverPlan, LeverReason, LeverRespelled, LeverWeights,
    LeverWishes, plan_levers, plan_levers_together,
};
pub use paper_part::{
    Finding, FindingKind, PaperBar, PaperChange, PaperError, PaperLines, PaperMovement, PaperPart,
    PaperPlace, PaperRead, PaperWrong, Standing, Stretch,
};
pub use pinned::{pins_at, places};
pub use plan::{Because, Cannot, Change, Contradicted, Plan, Reason, Remedy, Respelled};
pub use planner::plan;
pub use programme::{
    AtFirst, BrokenPart, Known, LeversBefore, Lost, Needs, Outline, PedalBefore, Programme,
    ProgrammePiece, Retuning, Slot, StringUse, lost_tonight, programme,
};
pub use reach::{LeftOut, Reach, within_reach};
pub use replay::{Fault, replay};
pub use sounding::{
    Sounds, all_settings, names_of, settings_that_sound_at_least, settings_that_sound_exactly,
    sound_of,
};
pub use strings_played::{Played, lever_strings_played, strings_played};
pub use survive::{played_measures, surviving_measures};
pub use tempo::fastest_tempo;
pub use tuned::{KeySet, tuned_and_played};
pub use weights::{Spelling, Weights};
pub use wishes::{Broken, Pin, Wishes};
pub use written::{Mark, written_marks};
