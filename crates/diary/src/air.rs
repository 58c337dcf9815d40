//! The air around a harp.

use serde::{Deserialize, Serialize};

use crate::figure::maybe_figure;

/// Temperature and humidity where a harp stood, as far as they were read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Air {
    /// The name of the harp; `None` where it is the air of the place, for all harps there.
    pub harp: Option<String>,
    /// Temperature, degrees Celsius.
    #[serde(with = "maybe_figure")]
    pub temperature_c: Option<f64>,
    /// Relative humidity, per cent, 0 to 100.
    #[serde(with = "maybe_figure")]
    pub humidity_percent: Option<f64>,
}
