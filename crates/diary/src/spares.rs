//! What lies in the drawer: strings in their packets.

use harp::{Material, StringName};
use serde::{Deserialize, Serialize};

use crate::Day;
use crate::figure::maybe_figure;
use crate::string_fitted::maybe_material;
use crate::text::maybe_text;

/// So many spares more, or fewer, of one kind and one day. What is in the drawer is the sum of all that was written, whatever
/// came first.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spares {
    /// The name of the harp; `None` for strings that are kept for any.
    pub harp: Option<String>,
    /// The string that they are for, where the packet says so.
    #[serde(with = "maybe_text")]
    pub string: Option<StringName>,
    /// What they are made of.
    #[serde(with = "maybe_material")]
    pub material: Option<Material>,
    /// Their outer diameter, millimetres.
    #[serde(with = "maybe_figure")]
    pub gauge_mm: Option<f64>,
    /// The day on which they were bought, where it is known.
    #[serde(with = "maybe_text")]
    pub bought: Option<Day>,
    /// How many more; fewer is below nought.
    pub change: i64,
}
