//! The table of recorded strings: its cents are those of its hertz.

use pitch::{ReferencePitch, SpelledPitch, cents};

use crate::cases::rows;

#[test]
fn the_cents_of_every_recorded_string_are_those_of_its_frequency() {
    let rows = rows("concert-harp-recordings", "data.csv");
    assert_eq!(rows.len(), 23);
    for row in rows {
        let label: SpelledPitch = row[0].parse().unwrap();
        let hz: f64 = row[1].parse().unwrap();
        let stated: f64 = row[2].parse().unwrap();
        let decimals = row[1]
            .split_once('.')
            .map_or(0, |(_, decimals)| decimals.len());
        let rounding_hz = 0.5 * 10f64.powi(-i32::try_from(decimals).unwrap());
        let tolerance = 0.05 + cents(hz, hz + rounding_hz) + 0.01;
        let found = cents(ReferencePitch::A440.hz(label), hz);
        assert!(
            (found - stated).abs() < tolerance,
            "{}: {found}, not {stated}",
            row[0]
        );
        assert!(["A", "B", "C"].contains(&row[9].as_str()), "{row:?}");
        assert!(["partial 1", "fit"].contains(&row[3].as_str()), "{row:?}");
    }
}
