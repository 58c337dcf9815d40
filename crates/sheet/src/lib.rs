//! Answers as drawings and pages: the harp's picture as SVG, printed sheets as SVG and PDF.
//!
//! This room never knows how an answer was found, a disk or a screen: it is given plain values and
//! gives back text. It decides nothing; it says where a string stands, never what to do about it.
//!
//! A [`Picture`] says what is known of each string. [`Geometry`] says where each string lies in a
//! box, so that a page can put its own things in the same places; [`draw()`] makes a whole picture of
//! it, and [`said()`] tells it in words. Words and notes are in the languages that the picture names.
//!
//! A [`PieceSheet`] is what is printed of a piece, an [`Evening`] of several; [`piece_pages`] and [`evening_pages`] lay
//! them out.
//!
//! ```
//! use harp::Harp;
//! use sheet::{Mark, Picture, Size, Tone, draw, said};
//!
//! let mut picture = Picture::of(&Harp::named("pedal47")?);
//! picture.strings[18].mark = Mark::Off { cents: -14.0, u95_cents: 1.0 };
//! let svg = draw(&picture, Size::Phone, Tone::Light);
//! assert!(svg.starts_with("<svg") && svg.contains(r#"role="img""#));
//! assert!(said(&picture).contains("4G 14 low ± 1"));
//! # Ok::<(), harp::HarpError>(())
//! ```

mod body;
mod column;
mod curve;
mod draw;
mod element;
mod geometry;
mod kind;
mod length;
mod letters;
mod mark;
mod of_ahead;
mod of_round;
mod on_page;
mod paper;
mod picture;
mod said;
mod scale;
mod size;
mod stand;
mod standing;
mod strings;
mod title;
mod tone;
mod wording;
mod words;

pub use draw::draw;
pub use geometry::{Frame, Geometry, Place, Point};
pub use of_ahead::{Expected, of_ahead};
pub use of_round::of_round;
pub use on_page::{OnPage, on_page};
pub use paper::{
    BarChanges, BeatChanges, BeforePiece, CheckSheet, Diagrams, Dye, Evening, Face, FontsIn,
    Handout, HandoutString, Head, Item, KeyedString, Landmark, LeverOpening, MovementSheet, Page,
    Paper, Pencilled, PieceSheet, Print, PrintedBar, Remark, RemarkKind, Style, Turned, check_csv,
    check_pages, evening_pages, found_words, handout_pages, lever_why, piece_pages, svg, why,
};
#[cfg(feature = "pdf")]
pub use paper::{PdfError, pdf};
pub use picture::{Drawn, Mark, Picture, Side};
pub use said::said;
pub use scale::{FULL_CENTS, share_of_reach};
pub use size::Size;
pub use stand::{Stand, Word};
pub use title::title;
pub use tone::Tone;
