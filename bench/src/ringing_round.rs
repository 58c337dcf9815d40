//! A whole round on one harp, every string plucked once and left to ring: what speed and memory are measured on.

use pluck::{Event, RATE_HZ, Round, RoundString};

use crate::trouble::Trouble;
use harp::{Harp, Setup};
use pitch::ReferencePitch;

/// Strings plucked so many seconds apart.
const APART_S: f64 = 2.0;
/// From this string down to the lowest, then from the next up.
const FROM: usize = 24;

/// The round's sound, 48 kHz: all 47 strings of an open pedal harp at A4 = 440 Hz, each some cents off.
///
/// # Errors
/// None, as long as the harp is built in.
pub fn samples(seed: u64) -> Result<Vec<f32>, Trouble> {
    let standing = Harp::named("pedal47")?.standing(&Setup::open(ReferencePitch::A440))?;
    let mut strings = RoundString::of_harp(&standing);
    for (at, string) in strings.iter_mut().enumerate() {
        string.off_cents = (at * 7 % 41) as f64 - 20.0;
        string.false_cents = 0.5;
    }
    let order = (0..=FROM).rev().chain(FROM + 1..strings.len());
    let events = order.enumerate().map(|(nth, index)| {
        let at_s = 1.0 + nth as f64 * APART_S;
        Event::pluck(at_s, &strings[index].name)
    });
    let events = events.collect();
    Ok(Round::new(strings, events, seed).samples()?)
}

/// Length of so many samples in seconds.
pub fn seconds(samples: &[f32]) -> f64 {
    samples.len() as f64 / f64::from(RATE_HZ)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_string_is_plucked_and_nothing_is_cut_off() {
        let samples = samples(1).unwrap();
        let length = seconds(&samples);
        assert!(
            (47.0 * APART_S..47.0 * APART_S + 5.0).contains(&length),
            "{length}"
        );
        assert!(samples.iter().all(|x| x.abs() < 1.0));
    }
}
