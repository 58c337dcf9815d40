//! What could be done about a note that a lever harp does not have, as the levers stand there.

use std::collections::BTreeSet;

use harp::{Harp, Mechanism, StringName};
use pitch::{Letter, SpelledPitch};

use super::LeverPlan;
use crate::plan::Remedy;

/// The strings of a plan, wherever they stand.
pub(super) struct Strings<'a> {
    pub(super) harp: &'a Harp,
    /// Strings that the piece plays: the others' levers can be put before it as one likes.
    pub(super) played: BTreeSet<StringName>,
}

impl Strings<'_> {
    /// What could be done about a note, the nearest first.
    pub(super) fn remedies(
        &self,
        plan: &LeverPlan,
        moment: usize,
        written: SpelledPitch,
    ) -> Vec<Remedy> {
        let mut remedies = Vec::new();
        let names = self.names(plan, moment, written, 0);
        let other = names.into_iter().find(|name| *name != written);
        remedies.extend(other.map(Remedy::Respell));
        let mut octaves = [-1, 1, -2, 2, -3, 3].into_iter();
        let octave = octaves.find_map(|by| {
            let names = self.names(plan, moment, written, by);
            let same = names.iter().find(|name| name.letter == written.letter);
            same.or(names.first()).copied()
        });
        remedies.extend(octave.map(Remedy::Octave));
        remedies.push(Remedy::LeaveOut);
        remedies
    }

    /// The names under which strings sound a note there, so many octaves higher.
    fn names(
        &self,
        plan: &LeverPlan,
        moment: usize,
        written: SpelledPitch,
        octaves: i8,
    ) -> Vec<SpelledPitch> {
        let midi = written.midi() + 12 * i32::from(octaves);
        let near = [-1, 0, 1].map(|by| written.octave.saturating_add(octaves).saturating_add(by));
        let all = Letter::ALL.into_iter();
        let all = all.flat_map(|letter| near.map(|octave| StringName::new(letter, octave)));
        let sounding = all.filter(|&string| {
            let open = string.key() + i32::from(plan.open.alteration(string.letter).semitones());
            let on = match midi - open {
                0 => false,
                1 => true,
                _ => return false,
            };
            let stands = self.harp.string(string);
            let has_lever = stands.is_some_and(|stands| stands.mechanism == Mechanism::Lever);
            let could = stands.is_some() && (has_lever || !on);
            could && (!self.played.contains(&string) || is_on(plan, moment, string) == on)
        });
        sounding
            .map(|string| SpelledPitch {
                letter: string.letter,
                alter: (midi - string.key()) as i8,
                octave: string.octave,
            })
            .collect()
    }
}

/// Whether a string's lever is on for the notes of a moment.
fn is_on(plan: &LeverPlan, moment: usize, string: StringName) -> bool {
    let mut own = plan.flips.iter().filter(|flip| flip.string == string);
    let last = own.rfind(|flip| flip.moment <= moment);
    last.map_or_else(|| plan.levers.contains(&string), |flip| flip.on)
}
