//! What the reader chooses of how things are shown.

use harp::{Naming, Numbers};
use pitch::Tongue;
use serde::{Deserialize, Serialize};
use tsify::Tsify;

/// The reader's choices.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, Tsify)]
pub struct ShownChoice {
    /// Language of the sentences: `en`, `de`, `fr`; note names follow it.
    pub language: String,
    /// Scientific octave numbers, `G3`, in place of the harp's, `4G`.
    pub scientific: bool,
    /// The harp from the side of those who listen: bass right.
    pub other_side: bool,
}

impl ShownChoice {
    /// The language of the sentences.
    pub(crate) fn tongue(&self) -> Tongue {
        Tongue::from_code(&self.language).unwrap_or_default()
    }

    /// How strings and pitches are called.
    pub(crate) fn naming(&self) -> Naming {
        let numbers = if self.scientific {
            Numbers::Scientific
        } else {
            Numbers::Harp
        };
        Naming {
            numbers,
            language: self.tongue().notes(),
        }
    }
}
