//! A harp whose regulation is checked.

use harp::Standing;

use crate::generator::Generator;
use crate::round::{Event, Round, RoundString};
use crate::{Room, RoundError};

/// Seconds from one pluck to the next, and for the pedals.
const PLUCK_S: f64 = 2.4;
const PEDALS_S: f64 = 4.0;
/// Standard deviation of where a string comes back to, in cents.
const UNREST_CENTS: f64 = 0.4;

/// A check as it is played: where all strings stand after each move of the pedals or levers, one standing for each, the open
/// harp first; every string of `order` is plucked in each, one after the other. `error_cents` tells, for a string and the
/// number of a move from 0, how far beyond its target the mechanism leaves it. Open strings stand ±3 cents off (standard
/// deviation) and come back to within 0.4. Seconds and cents are invented.
///
/// # Errors
/// [`RoundError::UnknownString`] for a name in `order` that the harp has not; [`RoundError::Value`] if nothing stands.
pub fn checked(
    standings: &[Vec<Standing>],
    order: &[impl AsRef<str>],
    error_cents: impl Fn(&str, usize) -> f64,
    seed: u64,
) -> Result<Round, RoundError> {
    let open = standings.first().ok_or(RoundError::Value {
        what: "the number of standings",
        value: 0.0,
    })?;
    for name in order.iter().map(AsRef::as_ref) {
        if open
            .iter()
            .all(|standing| standing.string.to_string() != name)
        {
            return Err(RoundError::UnknownString {
                name: name.to_owned(),
            });
        }
    }
    let mut draws = Generator::new(&[seed, 0xC4EC]);
    let mut strings = RoundString::of_harp(open);
    for string in &mut strings {
        string.off_cents = 3.0 * draws.normal();
    }
    let mut events = Vec::new();
    let mut at_s = 1.0;
    for (number, standing) in standings.iter().enumerate() {
        for (string, (open, now)) in strings.iter().zip(open.iter().zip(standing)) {
            if number == 0 {
                break;
            }
            let step = pitch::cents(open.target_hz, now.target_hz);
            let error = error_cents(&string.name, number);
            let back = UNREST_CENTS * draws.normal();
            events.push(Event::damp(at_s, &string.name));
            let to_cents = string.off_cents + step + error + back;
            events.push(Event::turn(at_s + 0.1, &string.name, to_cents, 0.05));
        }
        if number > 0 {
            at_s += PEDALS_S;
        }
        for name in order {
            events.push(Event::pluck(at_s, name.as_ref()));
            at_s += PLUCK_S;
        }
    }
    events.sort_by(|a, b| a.at_s.total_cmp(&b.at_s));
    let mut round = Round::new(strings, events, seed);
    round.room = Room::QUIET;
    Ok(round)
}
