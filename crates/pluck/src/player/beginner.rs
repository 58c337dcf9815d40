//! Somebody who has not done it often.

use harp::Standing;
use pitch::Letter;

use super::hand::{Hand, Manner};
use super::{Aside, Script};
use crate::RoundError;
use crate::concert_harp::typical_t60;
use crate::round::What;

/// Slow, careful, often short of the target.
const SLOW: Manner = Manner {
    level_db: (-6.0, 2.0),
    turned_over: 4.0,
    happy: 3.0,
    plucks: (1, 6),
    before_turn_s: (1.5, 3.0),
    turn_s: (1.5, 3.5),
    settle_s: (0.8, 2.0),
    listen_s: (2.0, 4.0),
    visit_s: (8.0, 14.0),
    miss: 2.0,
    half_way: 0.3,
};
/// Where a passed string is turned to, in cents.
const PAST: f64 = 15.0;
/// A string for which a mishap is written is at least this far off.
const CLEARLY: f64 = 8.0;
/// A string that takes longer than this to fall by 60 dB can be turned by mistake and heard, in seconds.
const LONG_S: f64 = 4.0;
/// How long an interruption lasts, in seconds.
const INTERRUPTED_S: f64 = 30.0;

/// What goes wrong in the round of a [`beginner`]; by default nothing.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Mishaps {
    /// This letter's pedal is down: its strings stand a semitone high the whole time, and are tuned there.
    pub pedal_down: Option<Letter>,
    /// A string an octave away is plucked once before the one that is meant, where the harp has one.
    pub wrong_octave: bool,
    /// The string before is played once more, then the one that is meant three times while the one before it, still ringing,
    /// is turned; then both are put right. One of the longer strings, if the order has any below about 600 Hz.
    pub other_pin: bool,
    /// A string is turned to 15 cents above its target and eased down.
    pub passed: bool,
    /// For 30 s nothing is played and people talk.
    pub interrupted: bool,
}

/// A beginner tunes a harp that is off either way; seconds and cents are invented.
///
/// Each string stands −12 ± 10 cents off (standard deviation; at most ±35). Each visit takes 8–14 s or more: up to six plucks,
/// the pin turned 1.5–3 s after a pluck, for 1.5–3.5 s, to within 2 cents (standard deviation) or, three times in ten, half
/// way; she is content within ±3 cents. Of the `mishaps` each happens once, at a string other than the first that the seed
/// picks from its own quarter of the order; [`Script::asides`] says where. An order of fewer than two strings has none of
/// them but the pedal.
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order` that the harp has not.
pub fn beginner(
    standing: &[Standing],
    order: &[impl AsRef<str>],
    mishaps: Mishaps,
    seed: u64,
) -> Result<Script, RoundError> {
    let mut hand = Hand::new(standing, 2, seed);
    hand.begin_all(|draws| (-12.0 + 10.0 * draws.normal()).clamp(-35.0, 35.0));
    if let Some(letter) = mishaps.pedal_down {
        pedal_down(&mut hand, letter);
    }
    let order = hand.find(order)?;
    let rings = |hand: &Hand, string: usize| typical_t60(hand.strings[string].target_hz) > LONG_S;
    let octave = place(&mut hand, &order, 0, |_, _| true);
    let pin = place(&mut hand, &order, 1, rings);
    let past = place(&mut hand, &order, 2, |_, _| true);
    let pause = place(&mut hand, &order, 3, |_, _| true);
    let wanted = [
        pin.filter(|_| mishaps.other_pin),
        past.filter(|_| mishaps.passed),
    ];
    for at in wanted.into_iter().flatten() {
        let off = hand.cents(order[at]).abs().max(CLEARLY);
        hand.begin(order[at], -off);
    }
    for (at, &string) in order.iter().enumerate() {
        let here = |wanted: bool, place: Option<usize>| wanted && place == Some(at);
        if here(mishaps.interrupted, pause) {
            interruption(&mut hand);
        }
        let mut from_s = hand.now_s;
        if here(mishaps.wrong_octave, octave) {
            wrong_octave(&mut hand, standing, string);
        }
        if here(mishaps.other_pin, pin) && order[at - 1] != string {
            let before = order[at - 1];
            other_pin(&mut hand, string, before);
            hand.leave(string, from_s, false, &SLOW);
            hand.visit(before, &SLOW);
            from_s = hand.now_s;
        }
        if here(mishaps.passed, past) {
            pass(&mut hand, string);
        }
        let settled = hand.tune(string, &SLOW);
        hand.leave(string, from_s, settled, &SLOW);
    }
    Ok(hand.script())
}

/// A place in the given quarter of all but the first of `order`; where `fits` allows none of these, in any quarter, and where
/// it allows none at all, in that quarter after all.
fn place(
    hand: &mut Hand,
    order: &[usize],
    quarter: usize,
    fits: impl Fn(&Hand, usize) -> bool,
) -> Option<usize> {
    let rest = order.len().checked_sub(1).filter(|&rest| rest > 0)?;
    let (from, to) = (quarter * rest / 4, (quarter + 1) * rest / 4);
    let own: Vec<usize> = (from..to.max(from + 1)).map(|i| i + 1).collect();
    let fitting = |places: &mut dyn Iterator<Item = usize>| {
        let fit: Vec<usize> = places.filter(|&at| fits(hand, order[at - 1])).collect();
        Some(fit).filter(|fit| !fit.is_empty())
    };
    let places = fitting(&mut own.iter().copied())
        .or_else(|| fitting(&mut (1..=rest)))
        .unwrap_or(own);
    hand.draws.pick(&places)
}

fn pedal_down(hand: &mut Hand, letter: Letter) {
    let theirs = |name: &str| name.starts_with(letter.as_char());
    for string in hand.strings.iter_mut().filter(|s| theirs(&s.name)) {
        string.target_hz = pitch::raise(string.target_hz, 100.0);
    }
    hand.aside(Aside::PedalDown { letter });
}

fn interruption(hand: &mut Hand) {
    let (at_s, until_s) = (hand.now_s, hand.now_s + INTERRUPTED_S);
    hand.wait((1.0, 3.0));
    while hand.now_s < until_s - 5.0 {
        let (seconds, level_db) = (hand.draws.between(1.5, 4.0), hand.draws.between(-8.0, 0.0));
        hand.happens(What::Speech { seconds, level_db });
        hand.now_s += seconds;
        hand.wait((0.5, 3.0));
    }
    hand.now_s = until_s;
    hand.aside(Aside::Interruption {
        at_s,
        seconds: INTERRUPTED_S,
    });
}

fn wrong_octave(hand: &mut Hand, standing: &[Standing], string: usize) {
    let meant = standing[string].string;
    let octave_away = |other: &Standing| {
        let letter = (other.string.letter, other.string.sharp);
        letter == (meant.letter, meant.sharp) && other.string.octave.abs_diff(meant.octave) == 1
    };
    let found: Vec<usize> = (0..standing.len())
        .filter(|&i| octave_away(&standing[i]))
        .collect();
    let Some(wrong) = hand.draws.pick(&found) else {
        return;
    };
    hand.aside(Aside::WrongOctave {
        at_s: hand.now_s,
        meant: hand.name(string),
        plucked: hand.name(wrong),
    });
    hand.pluck(wrong, SLOW.level_db);
    hand.wait((2.0, 3.5));
}

/// Plays `before`, then `string` three times, and each time turns `before` by some of what `string` needs.
fn other_pin(hand: &mut Hand, string: usize, before: usize) {
    let (from_s, needs) = (hand.now_s, -hand.cents(string));
    let mut until_s = from_s;
    hand.pluck(before, SLOW.level_db);
    hand.wait((0.8, 1.2));
    for part in [0.6, 0.4, 0.3] {
        hand.pluck(string, SLOW.level_db);
        hand.wait((1.0, 1.5));
        let to_cents = hand.cents(before) + part * needs;
        hand.turn(before, to_cents, (1.0, 2.0));
        until_s = hand.now_s;
        hand.wait((0.5, 0.9));
    }
    hand.aside(Aside::OtherPin {
        from_s,
        until_s,
        plucked: hand.name(string),
        turned: hand.name(before),
    });
}

fn pass(hand: &mut Hand, string: usize) {
    hand.pluck(string, SLOW.level_db);
    hand.wait(SLOW.before_turn_s);
    hand.turn(string, PAST, SLOW.turn_s);
    hand.aside(Aside::Passed {
        at_s: hand.now_s,
        string: hand.name(string),
        cents: PAST,
    });
    hand.wait(SLOW.settle_s);
}
