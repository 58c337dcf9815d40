//! Practice for the page: strings tuned by ear on her own harp, and what is kept of all practice.

pub mod by_ear;
pub mod ear_view;
pub mod kept;
