//! The air at a moment, from what was read of it.

use diary::{Air, Moment};

/// Hours within which a reading of the air holds.
const HOLDS_HOURS: f64 = 3.0;

/// Temperature, °C, and relative humidity, per cent, as far as they are known.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct AirNow {
    /// Degrees Celsius.
    pub temperature_c: Option<f64>,
    /// Per cent, 0 to 100.
    pub humidity_percent: Option<f64>,
}

impl AirNow {
    /// From one air to another; only where all is known of both.
    pub(crate) fn change(self, to: AirNow) -> Option<[f64; 2]> {
        Some([
            to.temperature_c? - self.temperature_c?,
            to.humidity_percent? - self.humidity_percent?,
        ])
    }
}

/// What was read nearest to the moment, within three hours; readings of another harp do not count.
pub(crate) fn air_at(air: &[(Moment, Air)], harp: &str, when: Moment) -> AirNow {
    let after = air.partition_point(|(at, _)| *at <= when);
    let near = |of: &dyn Fn(&Air) -> Option<f64>| {
        let own = |(at, air): &(Moment, Air)| {
            let hours = when.since_s(*at).abs() / 3600.0;
            let here = air.harp.as_deref().is_none_or(|name| name == harp);
            let figure = of(air).filter(|_| here && hours <= HOLDS_HOURS)?;
            Some((hours, figure))
        };
        let before = air[..after].iter().rev().take(4).find_map(own);
        let later = air[after..].iter().take(4).find_map(own);
        let both = before.into_iter().chain(later);
        both.min_by(|a, b| a.0.total_cmp(&b.0)).map(|near| near.1)
    };
    AirNow {
        temperature_c: near(&|air| air.temperature_c),
        humidity_percent: near(&|air| air.humidity_percent),
    }
}
