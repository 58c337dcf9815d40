//! Glissandi: for how long the setting of a sweep is wanted, and which strings it strikes.

use pitch::SpelledPitch;
use score::{Glissando, Letters, Piece};

use super::Place;

/// What a sweep is at a place.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Sweep {
    /// How the letters are to stand.
    pub(crate) letters: Letters,
    /// The lowest and the highest string.
    pub(crate) strings: Option<(SpelledPitch, SpelledPitch)>,
}

/// For each place what sweeps want there: from the note that one leaves until just before the note
/// at which it arrives, or to the end of the measure where that is not written.
pub(crate) fn sweeps(piece: &Piece, places: &[Place], written: &[score::Moment]) -> Vec<Sweep> {
    let mut wanted = vec![Sweep::default(); places.len()];
    if piece.glissandi.is_empty() {
        return wanted;
    }
    let played = played(piece, places, written);
    for sweep in &piece.glissandi {
        let strings = strings(piece, sweep);
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
                wanted.letters = sweep.letters.or(wanted.letters);
                wanted.strings = hull(wanted.strings, strings);
            }
        }
    }
    wanted
}

/// The strings between its ends; where its end is not written, an octave on both sides.
fn strings(piece: &Piece, sweep: &Glissando) -> Option<(SpelledPitch, SpelledPitch)> {
    let from = piece.notes.get(sweep.from)?.string;
    let octave = |octaves: i8| SpelledPitch {
        octave: from.octave.saturating_add(octaves),
        ..from
    };
    match sweep.to {
        Some(to) => hull(
            Some((from, from)),
            piece.notes.get(to).map(|n| (n.string, n.string)),
        ),
        None => Some((octave(-1), octave(1))),
    }
}

type Range = Option<(SpelledPitch, SpelledPitch)>;

/// The lowest and the highest of both.
fn hull(one: Range, other: Range) -> Range {
    let height = |pitch: SpelledPitch| (pitch.octave, pitch.letter.index());
    match (one, other) {
        (Some((low, high)), Some((other_low, other_high))) => Some((
            if height(other_low) < height(low) {
                other_low
            } else {
                low
            },
            if height(other_high) > height(high) {
                other_high
            } else {
                high
            },
        )),
        (one, other) => one.or(other),
    }
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
