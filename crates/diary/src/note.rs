//! Something she wants to remember.

use harp::StringName;
use serde::{Deserialize, Serialize};

use crate::text::maybe_text;

/// A note, of a harp, of a string, or of neither.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Note {
    /// The name of the harp.
    pub harp: Option<String>,
    /// The string.
    #[serde(with = "maybe_text")]
    pub string: Option<StringName>,
    /// What she wrote.
    pub text: String,
}
