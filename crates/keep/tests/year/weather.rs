//! The air of the invented room: temperature and humidity wander slowly, with the seasons under them; in autumn the
//! heating dries it within ten days, and on a few mornings the harp stands in a hall that is warmer and drier.

use std::f64::consts::TAU;

use crate::draws::Draws;

/// The day on which the heating is turned on.
const HEATED: u32 = 290;

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
        let heated = (f64::from(day.saturating_sub(HEATED)) / 10.0).min(1.0);
        let hall = f64::from(u8::from(draws.chance(6.0 / 365.0)));
        Weather {
            celsius: 20.5 + 1.5 * season + warm + 4.0 * hall,
            percent: (52.0 + 9.0 * season + damp - 20.0 * heated - 12.0 * hall).clamp(15.0, 85.0),
        }
    };
    (0..365).map(morning).collect()
}
