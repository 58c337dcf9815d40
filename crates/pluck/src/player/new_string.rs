//! A string that has just been put on.

use harp::Standing;

use super::hand::{Hand, PRACTISED};
use super::{Aside, Script};
use crate::RoundError;

/// Where the new string starts, in cents.
const SLACK: f64 = -500.0;
/// Where its last turn but one leaves it, more or less.
const NEARLY: f64 = -12.0;
/// The longest that one move of a pin may last, in seconds.
const LONGEST_S: f64 = 600.0;

/// A new string is brought up, sinks, and is tuned again after other strings; seconds and cents are invented.
///
/// The string `new` starts 500 cents down and is plucked and turned five or six times, each turn of 2–4 s leaving it at some
/// two fifths of the distance. Then half of the other strings in `order` are visited (each 0 ± 3 cents off, standard
/// deviation), as in [`whole_harp`](super::whole_harp()), while the new one sinks by 10–25 cents ([`Aside::Sinking`]), more
/// quickly at first; then the new one, the other half, and the new one for the third time. Where there are no others she
/// waits for 20–30 s.
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order`, or a `new`, that the harp has not.
pub fn new_string(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    new: &str,
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 5, seed);
    hand.begin_all(|draws| 3.0 * draws.normal());
    let mut others = hand.find(order)?;
    for new in hand.find(&[new])? {
        others.retain(|&other| other != new);
        hand.begin(new, SLACK);
        bring_up(&mut hand, new);
        let (first, second) = others.split_at(others.len().div_ceil(2));
        for half in [first, second] {
            sink_while(&mut hand, new, half);
            hand.visit(new, &PRACTISED);
        }
    }
    Ok(hand.script())
}

/// The first visit: all but the last turns by a falling geometric series, the rest as ever.
fn bring_up(hand: &mut Hand, new: usize) {
    let from_s = hand.now_s;
    let turns = 4 + hand.draws.below(2);
    let left = (NEARLY / SLACK).powf(1.0 / f64::from(turns));
    for turn in 1..=turns {
        hand.pluck(new, PRACTISED.level_db);
        hand.wait(PRACTISED.before_turn_s);
        let chance = hand.draws.between(0.9, 1.1);
        let to_cents = SLACK * left.powf(f64::from(turn)) * chance;
        hand.turn(new, to_cents, (2.0, 4.0));
        hand.wait(PRACTISED.settle_s);
    }
    let settled = hand.tune(new, &PRACTISED);
    hand.leave(new, from_s, settled, &PRACTISED);
}

/// Visits others; meanwhile the new string sinks, three fifths of the way in the first quarter of the time.
fn sink_while(hand: &mut Hand, new: usize, others: &[usize]) {
    let (from_s, from_cents) = (hand.now_s, hand.cents(new));
    let sinks = hand.draws.between(10.0, 25.0);
    for &other in others {
        hand.visit(other, &PRACTISED);
    }
    if others.is_empty() {
        hand.wait((20.0, 30.0));
    }
    let seconds = (hand.now_s - from_s).min(LONGEST_S);
    hand.moves(new, from_cents - 0.6 * sinks, from_s, 0.25 * seconds);
    hand.moves(
        new,
        from_cents - sinks,
        from_s + 0.25 * seconds,
        0.75 * seconds,
    );
    hand.aside(Aside::Sinking {
        string: hand.name(new),
        from_s,
        until_s: from_s + seconds,
        cents: sinks,
    });
}
