//! The diary: records that are added and never changed, what they replay to, and how two diaries become one.
//!
//! This room never knows disk, network or clock: a second of the day enters as text, a file as bytes, and out come lines
//! for others to keep. It owns the shape of its records; what `tuning` or `harp` call their fields does not reach a file.
//!
//! A record is one line of JSON (RFC 8259): `device`, `seq`, `at`, `kind`, `v`, `body`. Kinds and versions that this
//! program does not know are kept, and passed on byte for byte.
//!
//! ```
//! use diary::{Diary, Entry, HarpKept};
//!
//! let mut diary = Diary::default();
//! let harp = harp::Harp::named("lever34")?;
//! let entry = Entry::Harp(HarpKept { harp: "little".to_owned(), toml: harp.to_toml() });
//! diary.append("phone", "2026-11-26T18:40:00Z".parse()?, &entry)?;
//!
//! let mut desk = Diary::default();
//! let read = desk.import(diary.export().as_bytes());
//! assert_eq!((read.merged.taken.len(), read.troubles.len()), (1, 0));
//! let again = desk.import(diary.export().as_bytes());
//! assert_eq!((again.merged.taken.len(), again.merged.known), (0, 1));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```

mod act;
mod air;
mod at;
mod begun;
mod book;
mod check;
mod clocks;
mod correction;
mod day;
mod ends;
mod entry;
mod event;
mod events;
mod fault;
mod figure;
mod given;
mod harp_kept;
mod held;
mod import;
mod known;
mod leaves;
mod met;
mod moment;
mod note;
mod over;
mod plan_kept;
mod practice_kept;
mod programme_kept;
mod read_error;
mod reading;
mod reading_kept;
mod record;
mod record_id;
mod reference_taken;
mod regulation;
mod replay;
mod replay_order;
mod rounds;
mod spares;
mod strict;
mod string_fitted;
mod text;
mod thinning;
mod told;
mod truths;
mod twin;
mod visit;
mod writer;

pub use air::Air;
pub use at::{At, AtError};
pub use begun::{PlanError, RoundBegun};
pub use book::{AppendError, Diary, Gap, Merged};
pub use check::{Checked, ClockSeen, clocks_ahead};
pub use correction::{Correction, Now, UnknownEntry};
pub use day::{Day, DayError};
pub use ends::{CutShort, Ends};
pub use entry::Entry;
pub use events::{MOST_EVENTS, RoundEvents};
pub use fault::{Does, Fault, Part};
pub use given::{Given, Giving, Group, UnknownGroup};
pub use harp_kept::HarpKept;
pub use held::{BLOCK, Held, LineSum};
pub use import::{Imported, LineTrouble, records_of};
pub use known::{
    CheckedKnown, FaultKnown, FittedKnown, HarpKnown, Known, Move, Point, SparesKnown, Stands,
    StringKnown, VisitKnown,
};
pub use leaves::{Leaf, Leaves, Says};
pub use met::Met;
pub use moment::Moment;
pub use note::Note;
pub use over::{RoundOver, StringOver};
pub use plan_kept::{PlanKept, PlanPlace};
pub use practice_kept::{
    Asked, AskedAbout, BeatsCounted, EarDrill, HeardKept, OffKept, PracticeKept, Side,
    SizeAnswered, TunedByEar,
};
pub use programme_kept::{PieceKept, ProgrammeKept};
pub use read_error::ReadError;
pub use reading_kept::ReadingKept;
pub use record::{LONGEST_LINE, Record};
pub use record_id::{Device, DeviceError, HIGHEST_SEQ, RecordId};
pub use reference_taken::ReferenceTaken;
pub use regulation::{Found, PedalFound, PositionRead, Regulation, StringChecked};
pub use replay::{Branch, KeptRound, RoundError};
pub use rounds::{Counts, RoundListed};
pub use spares::Spares;
pub use string_fitted::{StringBroken, StringFitted, StringRemoved};
pub use thinning::{Thinning, thinned};
pub use told::Told;
pub use visit::Visit;
pub use writer::Writer;
