//! A whole harp that has sunk.

use harp::Standing;

use super::Script;
use super::hand::{Hand, PRACTISED};
use crate::RoundError;

/// How often a string is found in tune already.
const IN_TUNE: f64 = 1.0 / 6.0;

/// A harp about 20 cents down is brought up, string by string; seconds and cents are invented.
///
/// Each string stands −20 ± 6 cents (standard deviation) off, one in six within ±4. A string is plucked; if it is off by more
/// than 3 cents its pin is turned while it rings, 0.9–1.3 s after the pluck, for 0.8–2 s, to within 1.3 cents (standard
/// deviation) of the target or, about every seventh time, only half way; then it is plucked again, still, until it is within
/// ±2 cents or has been plucked four times. Then comes the next string, 4–7 s after the last, up to 13 s where turns miss.
/// Levels −4 to +2 dB. No string is damped.
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order` that the harp has not.
pub fn whole_harp(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 0, seed);
    hand.begin_all(|draws| {
        if draws.unit() < IN_TUNE {
            draws.between(-4.0, 4.0)
        } else {
            -20.0 + 6.0 * draws.normal()
        }
    });
    for string in hand.find(order)? {
        hand.visit(string, &PRACTISED);
    }
    Ok(hand.script())
}
