//! A harp in tune that has to be in tune somewhere else.

use harp::Standing;
use pitch::ReferencePitch;

use super::Script;
use super::hand::{Hand, PRACTISED};
use crate::RoundError;

/// A harp in tune at A4 = 440 Hz is brought to another reference; seconds and cents are invented.
///
/// `standing` is the harp as it should stand at the new reference `to`. Every string starts where it stood at 440 Hz, ± 1 cent
/// (standard deviation): −7.85 cents where `to` is 442 Hz. Each is tuned as in [`whole_harp`](super::whole_harp()).
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order` that the harp has not.
pub fn moved_to(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    to: ReferencePitch,
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 4, seed);
    let from_cents = pitch::cents(to.a4_hz(), ReferencePitch::A440.a4_hz());
    hand.begin_all(|draws| from_cents + draws.normal());
    for string in hand.find(order)? {
        hand.visit(string, &PRACTISED);
    }
    Ok(hand.script())
}
