//! Two devices met, and one saw the other's clock.

use serde::{Deserialize, Serialize};

use crate::Device;
use crate::figure::as_figure;
use crate::text::as_text;

/// The clock of another device, as the writer of this record saw it when both gave each other their records.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Met {
    /// The other device.
    #[serde(with = "as_text")]
    pub device: Device,
    /// The last place that the other had written then; its later records were made after it.
    pub seq: u64,
    /// By how many seconds the other's clock was ahead of the writer's; below nought: behind.
    #[serde(with = "as_figure")]
    pub ahead_s: f64,
}
