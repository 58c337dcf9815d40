//! How the evening uses each string: what a forecast asks when it says which to touch first.

use std::collections::BTreeMap;

use harp::StringName;

use super::{Known, ProgrammePiece};
use crate::strings_played::{Played, lever_strings_played, strings_played};

/// One string through the evening.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct StringUse {
    /// The harp.
    pub harp_name: String,
    /// The string.
    pub string: StringName,
    /// How it is played in the pieces that were planned; parts on paper name no notes.
    pub played: Played,
    /// In how many pieces on paper she calls it exposed.
    pub called_exposed: u32,
    /// The pieces that play or name it, from 0.
    pub pieces: Vec<usize>,
}

impl StringUse {
    /// What it counts where not every string can be tuned: its notes, those that are exposed three times; on paper, which
    /// names no notes, four for each piece in which she calls it exposed. Ours, no source.
    pub fn weight(&self) -> f64 {
        f64::from(self.played.attacks + 2 * self.played.exposed + 4 * self.called_exposed)
    }
}

/// Every string that is played or named, harp by harp in the order of the evening, from the bass.
pub(super) fn strings(pieces: &[ProgrammePiece<'_>]) -> Vec<StringUse> {
    let mut harps: Vec<&str> = Vec::new();
    let mut all: BTreeMap<(usize, StringName), StringUse> = BTreeMap::new();
    for (at, piece) in pieces.iter().enumerate() {
        let harp = harps
            .iter()
            .position(|name| *name == piece.harp_name)
            .unwrap_or_else(|| {
                harps.push(piece.harp_name);
                harps.len() - 1
            });
        let mut entry = |string: StringName, played: Played, called: u32| {
            let of_string = all.entry((harp, string)).or_insert_with(|| StringUse {
                harp_name: piece.harp_name.to_owned(),
                string,
                played: Played::default(),
                called_exposed: 0,
                pieces: Vec::new(),
            });
            of_string.played.attacks += played.attacks;
            of_string.played.alone += played.alone;
            of_string.played.exposed += played.exposed;
            of_string.called_exposed += called;
            if of_string.pieces.last() != Some(&at) {
                of_string.pieces.push(at);
            }
        };
        let played = match piece.known {
            Known::Pedals(demand, plan) => strings_played(demand, piece.harp, plan),
            Known::Levers(demand, plan) => lever_strings_played(demand, piece.harp, plan),
            Known::Paper(part) => {
                let mut named: Vec<StringName> = Vec::new();
                for movement in &part.movements {
                    let keyed = movement.by_key.iter().map(|&(string, _)| string);
                    keyed.for_each(|string| entry(string, Played::default(), 0));
                    named.extend(&movement.exposed);
                }
                named.sort_unstable();
                named.dedup();
                named
                    .into_iter()
                    .for_each(|string| entry(string, Played::default(), 1));
                continue;
            }
            Known::Outline(_) | Known::Nothing => continue,
        };
        for (string, played) in played {
            entry(string, played, 0);
        }
    }
    all.into_values().collect()
}
