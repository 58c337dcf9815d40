//! A harp, as its player knew it on a day.

use harp::{Harp, HarpKind};
use serde::{Deserialize, Serialize};

/// A harp's file under the name by which the diary knows that harp. A later record of the same name takes its place.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct HarpKept {
    /// The name, the player's own: `big one`, or that of a built-in harp.
    pub harp: String,
    /// The text of its file, which [`harp::Harp::from_toml`] reads.
    pub toml: String,
}

impl HarpKept {
    /// The name of a harp that nobody named: what moves its strings, its lowest and its highest.
    ///
    /// ```
    /// let harp = harp::Harp::named("lever34")?;
    /// assert_eq!(diary::HarpKept::usual_name(&harp), "lever C2 A6");
    /// # Ok::<(), harp::HarpError>(())
    /// ```
    pub fn usual_name(harp: &Harp) -> String {
        let kind = match harp.kind() {
            HarpKind::Pedal => "pedal",
            HarpKind::Lever => "lever",
            HarpKind::Free => "free",
        };
        let ends = [harp.strings().first(), harp.strings().last()];
        let ends = ends.into_iter().flatten();
        let ends = ends.map(|string| format!(" {}", string.name));
        format!("{kind}{}", ends.collect::<String>())
    }
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
