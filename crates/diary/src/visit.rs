//! The technician came.

use serde::{Deserialize, Serialize};

use crate::Day;
use crate::text::maybe_text;

/// A technician's visit to a harp.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Visit {
    /// The name of the harp.
    pub harp: String,
    /// The day, where it is another than that of the record.
    #[serde(with = "maybe_text")]
    pub on: Option<Day>,
    /// Who came; empty where that was not said.
    pub who: String,
    /// What was done.
    pub done: String,
    /// What else she wrote beside it.
    pub note: String,
}
