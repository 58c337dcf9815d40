//! The regulation check for the page: which strings, one after the other, and what came of it.

pub mod asked;
pub mod findings;
pub mod kept;
pub mod listened;
pub mod past;
