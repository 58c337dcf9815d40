//! Glissandi: for how long the setting of a sweep is wanted.

use score::{Letters, Piece};

use super::Place;

/// For each place what sweeps want there: from the note that one leaves until just before the note
/// at which it arrives, or to the end of the measure where that is not written.
pub(crate) fn sweeps(piece: &Piece, places: &[Place], written: &[score::Moment]) -> Vec<Letters> {
    let mut wanted = vec![Letters::default(); places.len()];
    if piece.glissandi.is_empty() {
        return wanted;
    }
    let played = played(piece, places, written);
    for sweep in &piece.glissandi {
        for &begin in played.get(sweep.from).into_iter().flatten() {
            let turn = places[begin].turn;
            let to = sweep.to.and_then(|to| played.get(to));
            let to = to.map(|to| {
                to.iter()
                    .copied()
                    .find(|&to| to > begin)
                    .unwrap_or(usize::MAX)
            });
            // a jump may lead away from where it would arrive
            let last_turn = turn + usize::from(to.is_some());
            let within = places.iter().zip(&mut wanted).enumerate().skip(begin);
            for (_, (_, wanted)) in within.take_while(|(index, (place, _))| {
                place.turn <= last_turn && to.is_none_or(|to| *index < to)
            }) {
                *wanted = sweep.letters.or(*wanted);
            }
        }
    }
    wanted
}

/// For each note the places at which it is played.
fn played(piece: &Piece, places: &[Place], written: &[score::Moment]) -> Vec<Vec<usize>> {
    let mut played = vec![Vec::new(); piece.notes.len()];
    for (index, place) in places.iter().enumerate() {
        let notes = place.written.map_or(&[][..], |at| &written[at].notes);
        for &note in notes {
            if let Some(places) = played.get_mut(note) {
                places.push(index);
            }
        }
    }
    played
}
