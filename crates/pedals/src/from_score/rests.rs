//! Where nothing is played: written lengths say so, although strings ring on.

use score::{Fraction, Piece};

use super::Place;

/// Where the last note of several that overlap ends, in quarters from the beginning of the measure: a
/// rest begins there, or the next measure.
pub(crate) fn ends(piece: &Piece, measure: usize) -> Vec<Fraction> {
    let from = piece.notes.partition_point(|note| note.measure < measure);
    let notes = piece.notes[from..].iter();
    let mut ends = Vec::new();
    let mut last = Fraction::ZERO;
    for note in notes.take_while(|note| note.measure == measure) {
        if note.offset > last && last > Fraction::ZERO {
            ends.push(last);
        }
        last = last.max(note.end());
    }
    ends.push(last);
    ends
}

/// For each place whether nothing is played from there to the next one.
pub(crate) fn rests(piece: &Piece, places: &[Place], written: &[score::Moment]) -> Vec<bool> {
    let mut until = Fraction::ZERO;
    let rests = places.iter().map(|place| {
        let notes = place.written.map_or(&[][..], |at| &written[at].notes);
        let notes = notes.iter().filter_map(|&note| piece.notes.get(note));
        let graced = place.grace;
        for note in notes {
            until = until.max(place.at.plus(note.duration).unwrap_or(until));
        }
        !graced && until <= place.at
    });
    rests.collect()
}
