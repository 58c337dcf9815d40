//! Tremolos of two notes or chords: the strings of both stand from the first note to the end of the
//! second.

use std::collections::BTreeMap;

use pitch::SpelledPitch;
use score::{Piece, Tremolo};

use super::Place;

/// For each place what tremolos strike there beside the notes that begin.
pub(crate) fn tremolos(
    piece: &Piece,
    places: &[Place],
    written: &[score::Moment],
) -> Vec<Vec<SpelledPitch>> {
    let mut struck = vec![Vec::new(); places.len()];
    let mut by_measure: BTreeMap<usize, Vec<&Tremolo>> = BTreeMap::new();
    for tremolo in &piece.tremolos {
        by_measure.entry(tremolo.measure).or_default().push(tremolo);
    }
    for (place, struck) in places.iter().zip(&mut struck) {
        let here = by_measure.get(&place.measure).into_iter().flatten();
        let lasts = |tremolo: &&&Tremolo| {
            // grace notes come before their main note
            let begun = place.offset > tremolo.from || place.offset == tremolo.from && !place.grace;
            begun && place.offset < tremolo.to
        };
        for tremolo in here.filter(lasts) {
            let begins = place.written.map_or(&[][..], |at| &written[at].notes);
            let others = tremolo.notes.iter().filter(|note| !begins.contains(note));
            for note in others.filter_map(|&note| piece.notes.get(note)) {
                if !struck.contains(&note.string) {
                    struck.push(note.string);
                }
            }
        }
    }
    struck
}
