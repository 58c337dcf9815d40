//! How many strings there is time for, and which.

use harp::{Harp, Mechanism, StringName};
use pitch::harp_octave;

/// Plucks of a string with discs: open, natural, sharp, and open once more.
pub const PLUCKS_OF_DISCS: u32 = 4;
/// Plucks of a string with a lever: off, on, and off once more.
pub const PLUCKS_OF_A_LEVER: u32 = 3;

/// The harp's octaves in the order in which they matter: the top two most (common practice of technicians), then the
/// octave of middle C and its neighbours; where the top two fit in, most letters have the strings that tell a pedal from
/// a disc.
const OCTAVES: [i32; 8] = [1, 2, 0, 4, 3, 5, 6, 7];

/// How fast she goes, in seconds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pace {
    /// For a pluck, until the next.
    pub pluck_s: f64,
    /// For all pedals moved once; for levers, for each.
    pub move_s: f64,
}

impl Default for Pace {
    /// Our own guess until hers is known.
    fn default() -> Self {
        Pace {
            pluck_s: 4.0,
            move_s: 10.0,
        }
    }
}

/// How long a check of these strings takes, in seconds; strings that nothing moves are left out.
///
/// ```
/// use harp::Harp;
/// use tuning::regulation::{Pace, seconds};
/// let harp = Harp::named("pedal47")?;
/// let all: Vec<_> = harp.strings().iter().map(|string| string.name).collect();
/// // 44 strings by four plucks, and all pedals moved three times
/// assert_eq!(seconds(&harp, &all, &Pace::default()), 44.0 * 4.0 * 4.0 + 3.0 * 10.0);
/// # Ok::<(), harp::HarpError>(())
/// ```
pub fn seconds(harp: &Harp, strings: &[StringName], pace: &Pace) -> f64 {
    let mut seconds = 0.0;
    let mut discs = false;
    for &string in strings {
        match harp.string(string).map(|found| found.mechanism) {
            Some(Mechanism::Discs) => {
                discs = true;
                seconds += f64::from(PLUCKS_OF_DISCS) * pace.pluck_s;
            }
            Some(Mechanism::Lever) => {
                // a lever takes a hand for a moment, on and off
                seconds += f64::from(PLUCKS_OF_A_LEVER) * pace.pluck_s + 0.2 * pace.move_s;
            }
            Some(Mechanism::Nothing) | None => {}
        }
    }
    let moves = f64::from(PLUCKS_OF_DISCS - 1) * pace.move_s;
    if discs { seconds + moves } else { seconds }
}

/// The strings that there is time for, from the bass up, those that matter most taken first; all that can be checked
/// where no time is given.
pub fn within_time(harp: &Harp, available_s: Option<f64>, pace: &Pace) -> Vec<StringName> {
    let place = |string: &StringName| {
        let octave = harp_octave(string.letter, string.octave);
        let found = OCTAVES.iter().position(|&other| other == octave);
        found.unwrap_or(OCTAVES.len())
    };
    let mut by_worth: Vec<StringName> = harp
        .strings()
        .iter()
        .filter(|string| string.mechanism != Mechanism::Nothing)
        .map(|string| string.name)
        .collect();
    by_worth.sort_by_key(|string| (place(string), std::cmp::Reverse(*string)));
    if let Some(available) = available_s {
        let mut fits = by_worth.len();
        while fits > 0 && seconds(harp, &by_worth[..fits], pace) > available {
            fits -= 1;
        }
        by_worth.truncate(fits);
    }
    by_worth.sort();
    by_worth
}
