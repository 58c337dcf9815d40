//! Scores: the bytes of a MusicXML or Standard MIDI File in; the notes that sound out, spelled,
//! in exact time and in playing order, each with its place in the source, and with a diagnostic
//! for whatever was doubtful.
//!
//! This room never knows the harp: it says which pitch a string would have to give, not which
//! string there is. It reads no disk and keeps no past.
//!
//! Times are exact fractions of a quarter note ([`Fraction`]); seconds follow from the tempo marks.
//! A *written* place is a measure and an offset in it; a *played* place is where the written one
//! comes when repeats and jumps are taken.

mod anchor;
mod archive;
mod diagnostic;
mod doubts;
mod encoding;
mod error;
mod excerpts;
mod fraction;
mod glissando;
mod harmonic;
mod jump;
mod key;
mod letters;
mod mark;
mod measure;
mod midi;
mod moment;
mod musicxml;
mod new_mark;
mod note;
mod options;
mod order;
mod part;
mod piece;
mod played;
mod read;
mod spelling;
mod tempo;
mod text;
mod time_signature;
mod tremolo;
mod with_marks;

pub use anchor::Anchor;
pub use diagnostic::{Diagnostic, Doubt};
pub use error::ScoreError;
pub use excerpts::{Excerpts, FINDER};
pub use fraction::Fraction;
pub use glissando::{Glissando, SettingSource};
pub use harmonic::{Harmonic, HarmonicPitch};
pub use key::KeySignature;
pub use letters::Letters;
pub use mark::{Mark, MarkKind};
pub use measure::{Ending, Measure, Repeat};
pub use moment::Moment;
pub use new_mark::{NewMark, NewMarkKind, Placement};
pub use note::{Arpeggio, Hand, Note, Tie};
pub use options::{Harmonics, Options, WhichPart};
pub use part::Part;
pub use piece::Piece;
pub use played::Played;
pub use read::{musicxml_text, read};
pub use tempo::{Tempo, TempoMap};
pub use time_signature::TimeSignature;
pub use tremolo::Tremolo;
pub use with_marks::{Marked, with_marks};
