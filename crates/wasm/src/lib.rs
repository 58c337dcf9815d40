//! Bindings for the page: values in, values out, in four modules: `tune`, loaded at once, which writes records and reads none;
//! `desk`, the same and all that reads the diary; `programme`, which reads scores and plans; `demo`, the invented harp
//! and practice by its sounds. All but the first are loaded when asked for.
//!
//! This room never knows why: it turns the page's choices into the rooms' values and their answers into what the page shows.
//! The types that the page reads are made from those here; nobody writes them down a second time.

#[cfg(feature = "tune")]
pub mod act;
#[cfg(feature = "tune")]
pub mod choice;
#[cfg(feature = "demo")]
pub mod demo;
#[cfg(feature = "desk")]
pub mod drills;
#[cfg(feature = "desk")]
pub mod exchange;
#[cfg(feature = "desk")]
pub mod foreseen;
#[cfg(feature = "desk")]
pub mod given;
#[cfg(feature = "desk")]
pub mod handout;
#[cfg(any(feature = "tune", feature = "programme"))]
pub mod harp_choice;
#[cfg(feature = "tune")]
pub mod harps;
#[cfg(feature = "tune")]
pub mod held;
#[cfg(feature = "tune")]
mod keeper;
#[cfg(feature = "desk")]
pub mod leaves;
#[cfg(feature = "demo")]
pub mod made;
#[cfg(feature = "desk")]
pub mod practice;
#[cfg(feature = "programme")]
pub mod programme;
#[cfg(feature = "desk")]
pub mod reader;
#[cfg(feature = "desk")]
pub mod regulation;
#[cfg(feature = "desk")]
pub mod shelf;
#[cfg(feature = "tune")]
pub mod shown;
#[cfg(any(feature = "tune", feature = "programme"))]
pub mod shown_choice;
#[cfg(feature = "desk")]
pub mod strings;
#[cfg(feature = "desk")]
pub mod students;
#[cfg(feature = "tune")]
pub mod summary;
#[cfg(feature = "tune")]
pub mod tune;
#[cfg(feature = "tune")]
pub mod view;
#[cfg(feature = "desk")]
pub mod written;
