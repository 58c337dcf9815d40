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

/// What was written of the air where the harp stands in the hour before a moment, the last of it.
pub fn air_lately(air: &[(Moment, Air)], harp: &str, when: Moment) -> AirNow {
    let lately = |of: &dyn Fn(&Air) -> Option<f64>| {
        let own = air.iter().rev().filter(|(at, air)| {
            let ago_s = when.since_s(*at);
            (0.0..=3600.0).contains(&ago_s) && air.harp.as_deref().is_none_or(|name| name == harp)
        });
        own.filter_map(|(_, air)| of(air)).next()
    };
    AirNow {
        temperature_c: lately(&|air| air.temperature_c),
        humidity_percent: lately(&|air| air.humidity_percent),
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_last_hour_is_lately() {
        let now = Moment::of(&"2026-11-26T18:40:00Z".parse().unwrap());
        let air = |minutes_ago: f64, temperature_c, harp: Option<&str>| {
            let air = Air {
                harp: harp.map(str::to_owned),
                temperature_c: Some(temperature_c),
                humidity_percent: None,
            };
            (now.plus_s(-60.0 * minutes_ago), air)
        };
        let all = [
            air(61.0, 18.0, None),
            air(50.0, 20.0, None),
            air(40.0, 25.0, Some("other")),
        ];
        assert_eq!(air_lately(&all, "own", now).temperature_c, Some(20.0));
        assert_eq!(air_lately(&all[..1], "own", now), AirNow::default());
    }
}
