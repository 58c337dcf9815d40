//! Octaves whose strings are of mixed ages: they sound uneven (a technician's advice; how far apart, nobody says).

use std::collections::BTreeMap;

use diary::{HarpKnown, Moment};
use harp::{Harp, StringName};
use pitch::harp_octave;

use crate::{Intervals, Register, YEAR, age};

/// An octave of mixed ages.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MixedOctave {
    /// The harp's own number of the octave.
    pub octave: i32,
    /// Wires and other strings of one octave are looked at apart.
    pub register: Register,
    /// The youngest, and its age in days.
    pub youngest: (StringName, f64),
    /// The oldest, and its age in days, at least.
    pub oldest: (StringName, f64),
}

/// Octaves whose oldest string is older than the youngest by half of the age at which strings there may be due (our
/// proposal), from the top.
pub fn mixed(
    harp: &Harp,
    known: &HarpKnown,
    now: Moment,
    intervals: &Intervals,
) -> Vec<MixedOctave> {
    let mut octaves: BTreeMap<(i32, Register), Vec<(StringName, f64)>> = BTreeMap::new();
    for string in harp.strings() {
        let own = known.strings.get(&string.name);
        if let Some(days) = own.and_then(|own| age(own, now).days()) {
            let octave = harp_octave(string.name.letter, string.name.octave);
            let key = (octave, Register::of(string));
            octaves.entry(key).or_default().push((string.name, days));
        }
    }
    let mixed = octaves.into_iter().filter_map(|((octave, register), all)| {
        let youngest = *all.iter().min_by(|a, b| a.1.total_cmp(&b.1))?;
        let oldest = *all.iter().max_by(|a, b| a.1.total_cmp(&b.1))?;
        let apart = (oldest.1 - youngest.1) / YEAR;
        (apart > intervals.of_register(register).from_years / 2.0).then_some(MixedOctave {
            octave,
            register,
            youngest,
            oldest,
        })
    });
    mixed.collect()
}
