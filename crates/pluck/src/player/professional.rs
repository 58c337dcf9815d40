//! Somebody who does it every day.

use harp::Standing;

use super::Script;
use super::hand::{Hand, Manner};
use crate::RoundError;

/// Two plucks a string, quick small turns, about five seconds all in.
pub(super) const QUICK: Manner = Manner {
    level_db: (-3.0, 2.0),
    turned_over: 1.5,
    happy: 2.0,
    plucks: (2, 2),
    before_turn_s: (0.7, 1.0),
    turn_s: (0.3, 0.8),
    settle_s: (0.3, 0.6),
    listen_s: (1.2, 1.6),
    visit_s: (4.8, 5.2),
    miss: 0.8,
    half_way: 0.0,
};

/// A professional goes through a harp that is nearly in tune; seconds and cents are invented.
///
/// Each string stands 0 ± 4.5 cents off (standard deviation; at most ±14). Each is plucked twice within five seconds; between
/// its plucks its pin is turned, while it rings, if it is off by more than 1.5 cents: 0.7–1 s after the first pluck, for
/// 0.3–0.8 s, to within 0.8 cents (standard deviation). Strings ring on.
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order` that the harp has not.
pub fn professional(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 1, seed);
    hand.begin_all(|draws| (4.5 * draws.normal()).clamp(-14.0, 14.0));
    for string in hand.find(order)? {
        hand.visit(string, &QUICK);
    }
    Ok(hand.script())
}
