//! The air of the invented rooms, hour by hour: a home that follows the season and the day, and halls that are warmer and
//! drier, or colder, each in its own way. All figures are invented.

use std::f64::consts::TAU;

use crate::draws::Draws;

/// Temperature, °C, and relative humidity, per cent.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Weather {
    pub(crate) celsius: f64,
    pub(crate) percent: f64,
}

/// Hours in which the harp stands in a hall: from 16 o'clock to midnight on these days.
pub(crate) fn hours(days: u32, halls: &[u32], draws: &mut Draws) -> Vec<Weather> {
    let (mut warm, mut damp) = (0.0, 0.0);
    let mut hall = (0.0, 0.0);
    let hour = |hour: u32| {
        let (day, of_day) = (hour / 24, hour % 24);
        warm = 0.992 * warm + 0.14 * draws.normal();
        damp = 0.992 * damp + 0.55 * draws.normal();
        if of_day == 16 {
            hall = (2.0 + 2.0 * draws.normal(), -6.0 + 5.0 * draws.normal());
        }
        let in_hall = halls.contains(&day) && of_day >= 16;
        let season = (TAU * f64::from(day) / 365.0).sin();
        let sun = (TAU * (f64::from(of_day) - 9.0) / 24.0).sin();
        let (warmer, damper) = if in_hall { hall } else { (0.0, 0.0) };
        Weather {
            celsius: 20.5 + 1.5 * season + 0.9 * sun + warm + warmer,
            percent: (48.0 + 8.0 * season - 1.5 * sun + damp + damper).clamp(15.0, 90.0),
        }
    };
    (0..days * 24).map(hour).collect()
}
