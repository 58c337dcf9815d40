//! The harp: its strings, pedals, levers and discs, what each string should sound in every
//! position, and its mechanics, from the figures that the player gave.
//!
//! This room never knows a sound, a score or the past. It reads no disk: a harp file enters as
//! text. It never guesses a length, a gauge or a material; what needs one that was not given is
//! blank and says which (the module [`synthetic`] holds invented figures for checks and drawings
//! only).
//!
//! ```
//! use harp::{Harp, Setup};
//! use pitch::ReferencePitch;
//!
//! let harp = Harp::named("pedal47")?;
//! let standing = harp.standing(&Setup::open(ReferencePitch::A440))?;
//! assert_eq!(standing.len(), 47);
//! assert_eq!(standing[2].pitch.to_string(), "Eb1");
//! # Ok::<(), harp::HarpError>(())
//! ```

mod built_in;
mod colour;
mod derived;
mod discless;
mod error;
mod figures;
mod file;
mod instrument;
mod material;
pub mod mechanics;
mod name;
mod naming;
mod open_tuning;
mod position;
mod setting;
mod sheet;
mod standing;
mod string;
pub mod synthetic;

pub use built_in::{BUILT_IN, BuiltIn};
pub use colour::Colour;
pub use derived::{Blank, Figure};
pub use discless::{DISCLESS_BY_DEFAULT, NEAR_SEMITONES};
pub use error::HarpError;
pub use figures::{Field, Figures};
pub use file::HarpFileError;
pub use instrument::{Harp, HarpKind};
pub use material::Material;
pub use name::{StringName, StringNameError};
pub use naming::{Naming, NamingError, Numbers};
pub use open_tuning::OpenTuning;
pub use position::Position;
pub use setting::{PedalMoves, Setting, SettingError};
pub use sheet::{Load, StringSheet, Targets};
pub use standing::{Setup, Standing};
pub use string::{HarpString, Mechanism};
