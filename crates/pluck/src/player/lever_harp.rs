//! A lever that was left on.

use harp::Standing;

use super::hand::{Hand, PRACTISED};
use super::{Aside, Script};
use crate::RoundError;

/// How long a lever takes to leave its string, in seconds.
const LEVER_S: f64 = 0.02;

/// A lever harp is tuned with one lever left on; seconds and cents are invented.
///
/// `standing` is the harp with its levers off, such as open in E flat. Each string stands −8 ± 6 cents off (standard
/// deviation); `lever_on` besides a semitone high. When its turn comes it is plucked; 1.5–2.5 s later the lever is put off
/// and the ringing string drops by 100 cents at once ([`Aside::LeverOff`]); then it is plucked again and tuned. If `order`
/// does not name it, its lever stays on. The others are tuned as in [`whole_harp`](super::whole_harp()).
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order`, or a `lever_on`, that the harp has not.
pub fn lever_harp(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    lever_on: &str,
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 3, seed);
    hand.begin_all(|draws| -8.0 + 6.0 * draws.normal());
    for raised in hand.find(&[lever_on])? {
        hand.begin(raised, hand.cents(raised) + 100.0);
    }
    let mut on = true;
    for string in hand.find(order)? {
        let from_s = hand.now_s;
        if on && hand.strings[string].name == lever_on {
            on = false;
            put_off(&mut hand, string);
        }
        let settled = hand.tune(string, &PRACTISED);
        hand.leave(string, from_s, settled, &PRACTISED);
    }
    Ok(hand.script())
}

fn put_off(hand: &mut Hand, string: usize) {
    hand.pluck(string, PRACTISED.level_db);
    hand.wait((1.5, 2.5));
    hand.aside(Aside::LeverOff {
        at_s: hand.now_s,
        string: hand.name(string),
    });
    let open = hand.cents(string) - 100.0;
    hand.turn(string, open, (LEVER_S, LEVER_S));
    hand.wait((0.8, 1.5));
}
