//! Pedals and levers: notes and a harp in, the plan and its cost itemised out.
//!
//! This room never knows a sound, a file or storage. It has no clock: where the work must end, it
//! counts it. Prices are whole numbers, so that a page and a desk add up to the same sums.

mod code;
mod sounding;

pub use code::SETTINGS;
pub use sounding::{
    Sounds, all_settings, names_of, settings_that_sound_at_least, settings_that_sound_exactly,
    sound_of,
};
