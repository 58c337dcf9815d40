//! The air of the invented room: temperature and humidity wander slowly, with the seasons under them.

use std::f64::consts::TAU;

use crate::draws::Draws;

/// Temperature, °C, and relative humidity, per cent, of one morning.
#[derive(Clone, Copy)]
pub(crate) struct Weather {
    pub(crate) celsius: f64,
    pub(crate) percent: f64,
}

/// A year of mornings.
pub(crate) fn weather(draws: &mut Draws) -> Vec<Weather> {
    let (mut warm, mut damp) = (0.0, 0.0);
    let morning = |day: u32| {
        warm = 0.85 * warm + 0.8 * draws.normal();
        damp = 0.85 * damp + 3.0 * draws.normal();
        let season = (TAU * f64::from(day) / 365.0).sin();
        Weather {
            celsius: 20.5 + 1.5 * season + warm,
            percent: (48.0 + 9.0 * season + damp).clamp(20.0, 85.0),
        }
    };
    (0..365).map(morning).collect()
}
