//! A harp, as its player knew it on a day.

use serde::{Deserialize, Serialize};

/// A harp's file under the name by which the diary knows that harp. A later record of the same name takes its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarpKept {
    /// The name, the player's own: `big one`, or that of a built-in harp.
    pub harp: String,
    /// The text of its file, which [`harp::Harp::from_toml`] reads.
    pub toml: String,
}

#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(crate) struct HarpBody {
    harp: String,
    toml: String,
}

impl From<&HarpKept> for HarpBody {
    fn from(kept: &HarpKept) -> Self {
        Self {
            harp: kept.harp.clone(),
            toml: kept.toml.clone(),
        }
    }
}

impl From<HarpBody> for HarpKept {
    fn from(body: HarpBody) -> Self {
        Self {
            harp: body.harp,
            toml: body.toml,
        }
    }
}
