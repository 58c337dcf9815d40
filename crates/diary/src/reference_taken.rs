//! The pitch of an evening.

use serde::{Deserialize, Serialize};

use crate::figure::{as_figure, maybe_figure};

/// A reference pitch that was taken: said by somebody, or heard.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct ReferenceTaken {
    /// The name of the harp; `None` where it holds for all.
    pub harp: Option<String>,
    /// A4, Hz.
    #[serde(with = "as_figure")]
    pub a4_hz: f64,
    /// Half of the 95 % interval, cents; `None` where it was said and not heard.
    #[serde(with = "maybe_figure")]
    pub u95_cents: Option<f64>,
    /// Of whom, or where: the oboe, the hall's organ. May be empty.
    pub from: String,
}
