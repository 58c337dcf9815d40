//! A reading made up for the tests of what is said about readings.

use pitch::Alteration;
use tuning::{Direction, Partial, Reading};

pub(crate) fn reading(
    string: &str,
    off_cents: f64,
    u95_cents: f64,
    direction: Option<Direction>,
) -> Reading {
    let string = string.parse().unwrap();
    let target_hz = 184.997;
    let heard_hz = pitch::raise(target_hz, off_cents);
    Reading {
        last: true,
        at_s: 0.1,
        string: Some(string),
        candidates: vec![string],
        position: Some(Alteration::Flat),
        target_hz,
        heard_hz,
        off_cents,
        u95_cents,
        shows_as: "F#3".to_owned(),
        shows_off_cents: off_cents,
        f1_hz: heard_hz,
        f1_u95_cents: u95_cents,
        f0_hz: heard_hz,
        b: 2.3e-4,
        glide_cents: 0.4,
        partials: vec![Partial {
            n: 1,
            hz: heard_hz,
            u95_cents,
        }],
        listened_s: 0.6,
        string_certainty: 0.99,
        direction,
        stiffness_cents: 0.0,
        t60_s: None,
        level_dbfs: None,
    }
}
