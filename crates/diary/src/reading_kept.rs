//! One pluck outside a round.

use serde::{Deserialize, Serialize};
use tuning::Reading;

use crate::figure::as_figure;
use crate::reading::ReadingBody;

/// A reading that belongs to no round.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReadingKept {
    /// The name of the harp.
    pub harp: String,
    /// The reference pitch by which its target was reckoned: A4, Hz.
    #[serde(with = "as_figure")]
    pub a4_hz: f64,
    /// By how many semitones a disc or a lever raised the string, 0 to 2.
    pub raised: u8,
    /// What was heard.
    #[serde(with = "as_body")]
    pub reading: Reading,
}

mod as_body {
    use serde::{Deserializer, Serializer};

    use super::*;

    pub(super) fn serialize<S: Serializer>(
        reading: &Reading,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        ReadingBody::from(reading).serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Reading, D::Error> {
        Ok(ReadingBody::deserialize(deserializer)?.into())
    }
}
