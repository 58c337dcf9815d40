//! An evening's pieces in their order.

use serde::{Deserialize, Serialize};

use crate::record_id::maybe_id;
use crate::text::maybe_text;
use crate::{Day, RecordId};

/// A programme. A later record of the same title and day takes its place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ProgrammeKept {
    /// Its title.
    pub title: String,
    /// The day of the performance, where it is known.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
    /// The place; may be empty.
    pub place: String,
    /// The pieces in order.
    pub pieces: Vec<PieceKept>,
}

/// One piece of a programme.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct PieceKept {
    /// Its title.
    pub title: String,
    /// The name of the harp.
    pub harp: String,
    /// The record of its plan, where it was planned.
    #[serde(with = "maybe_id")]
    pub plan: Option<RecordId>,
    /// What she wrote beside it.
    pub note: String,
}
