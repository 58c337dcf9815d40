//! Moments between the moments: where the next note is far off, feet may act in between.
//!
//! A pedal is home with a note or at one of these places, never just after a note: it has a way to
//! go. Times stay exact; only the choice of them is limited, and in the same way for every foot.

use harp::Setting;

use crate::{Demand, Moment, Quarters, Strength};

/// No two places where a foot may act lie further apart than this before a note, in microseconds:
/// half of a usual least time between moves. It does not depend on the feet, so that slower ones
/// never find a place that quicker ones do not have.
const APART_US: u64 = 200_000;

/// So many places before a note are enough for all pedals of a foot.
const PLACES: u64 = 12;

/// A demand with such places as moments of their own.
pub(crate) struct Filled {
    pub(crate) demand: Demand,
    /// For each of its moments the moment of the original at or after it.
    pub(crate) origin: Vec<usize>,
    /// For each moment of the original its place here.
    pub(crate) place: Vec<usize>,
}

impl Filled {
    pub(crate) fn of(demand: &Demand) -> Self {
        let mut filled = Self {
            demand: Demand::default(),
            origin: Vec::new(),
            place: Vec::new(),
        };
        for (index, moment) in demand.moments.iter().enumerate() {
            if let Some(before) = index.checked_sub(1) {
                let before = &demand.moments[before];
                // in the middle of a sweep or a tremolo no foot moves
                let still = before.glissando != Setting::default() || !before.tremolo.is_empty();
                let until_us = if still { before.at_us } else { moment.at_us };
                for at_us in between(before.at_us, until_us) {
                    filled.demand.moments.push(Moment {
                        at: Quarters::new(0, 1),
                        at_us,
                        strength: Strength::Off,
                        rest: before.rest,
                        ..Moment::empty()
                    });
                    filled.origin.push(index);
                }
            }
            filled.place.push(filled.origin.len());
            filled.origin.push(index);
            filled.demand.moments.push(moment.clone());
        }
        filled
    }
}

/// How many moments of a piece, from its first, have no more places at which a foot may act than
/// `most`, moments among them: what a plan takes of time and room grows with these.
///
/// ```
/// use pedals::{Demand, Moment, moments_within};
/// let late = Moment { at_us: 600_000, ..Moment::empty() };
/// let demand = Demand { moments: vec![Moment::empty(), late], ..Demand::default() };
/// assert_eq!(moments_within(&demand, 3), 1); // two places lie between the two
/// assert_eq!(moments_within(&demand, 4), 2);
/// ```
pub fn moments_within(demand: &Demand, most: usize) -> usize {
    let mut places = 0;
    let mut before_us = None;
    let fits = |moment: &&Moment| {
        let before_us = before_us.replace(moment.at_us).unwrap_or(moment.at_us);
        places += 1 + between(before_us, moment.at_us).count();
        places <= most
    };
    demand.moments.iter().take_while(fits).count()
}

/// Evenly spread places between two instants, the last [`PLACES`] of them.
fn between(from_us: u64, to_us: u64) -> impl Iterator<Item = u64> {
    let gap = to_us.saturating_sub(from_us);
    let parts = gap.div_ceil(APART_US).max(1);
    let first = parts.saturating_sub(PLACES).max(1);
    (first..parts).map(move |part| from_us + gap * part / parts)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_lie_close_before_a_note() {
        let places = |to: u64| between(1_000, 1_000 + to).collect::<Vec<_>>();
        assert!(places(200_000).is_empty());
        assert_eq!(places(300_000), [151_000]);
        assert_eq!(places(60_000_000).len(), 12);
        assert_eq!(places(60_000_000)[11], 59_801_000);
    }
}
