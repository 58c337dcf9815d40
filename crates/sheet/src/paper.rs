//! Printed sheets: what a harpist takes to the stage, as pages of ink.
//!
//! [`Evening`] and [`PieceSheet`] are plain values, made by [`PieceSheet::of_plan`] or by hand; [`evening_pages`] and
//! [`piece_pages`] lay them out; [`svg()`] and, with the feature `pdf`, [`pdf()`] write the pages down.

mod bar_line;
mod base64;
mod before_piece;
mod by_key;
mod check_csv;
mod check_page;
mod cut;
mod diagram;
mod evening;
mod evening_page;
mod face;
mod flow;
mod handout;
mod ink;
mod lever_opening;
mod of_levers;
mod of_paper;
mod of_plan;
#[cfg(feature = "pdf")]
mod pdf;
mod piece_page;
mod piece_sheet;
mod remarks;
mod style;
mod svg;
mod words;
mod wrap;

pub use before_piece::{BeforePiece, Turned};
pub use check_csv::check_csv;
pub use check_page::{CheckSheet, check_pages, found_words};
pub use evening::Evening;
pub use evening_page::evening_pages;
pub use face::Face;
pub use handout::{Handout, HandoutString, handout_pages};
pub use ink::{Dye, Item, Page};
pub use of_plan::Head;
#[cfg(feature = "pdf")]
pub use pdf::{PdfError, pdf};
pub use piece_page::piece_pages;
pub use piece_sheet::{
    BarChanges, BeatChanges, KeyedString, Landmark, LeverOpening, MovementSheet, Pencilled,
    PieceSheet, PrintedBar, Remark, RemarkKind,
};
pub use style::{Diagrams, Paper, Print, Style};
pub use svg::{FontsIn, svg};
pub use words::{lever_why, why};
