//! Places of the written part at which a pedal may be pinned.

use pitch::{Alteration, Letter};

use crate::{Demand, Pin, Quarters};

/// A pedal pinned at a written place: it holds at every playing of it, for the notes there. Nothing
/// where the piece has no such place.
pub fn pins_at(
    demand: &Demand,
    measure: u32,
    beat: Quarters,
    letter: Letter,
    alteration: Alteration,
) -> Vec<Pin> {
    let moments = demand.moments.iter().enumerate();
    let there = moments.filter(|(_, moment)| (moment.measure, moment.beat) == (measure, beat));
    let pins = there.map(|(moment, _)| Pin {
        moment,
        letter,
        alteration,
    });
    pins.collect()
}

/// Every written place, measure and beat, in the order in which it is first played.
pub fn places(demand: &Demand) -> Vec<(u32, Quarters)> {
    let mut seen = std::collections::BTreeSet::new();
    let all = demand
        .moments
        .iter()
        .map(|moment| (moment.measure, moment.beat));
    all.filter(|place| seen.insert(*place)).collect()
}
