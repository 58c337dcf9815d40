//! Two strings that sound alike, in quick alternation: one string cannot be struck again so soon, so
//! both must stand.

use std::collections::BTreeMap;

use pitch::{Alteration, SpelledPitch};
use score::{Letters, Piece};

use super::Place;

/// Two strikes further apart than this, in microseconds, can be of one string (a guess: players
/// alternate strings where they would have to strike more than three or four times a second).
const QUICK_US: u64 = 300_000;

/// For each place the letters of two strings that alternate there: at least three strikes of one
/// sound, the second by another name than the first and the third.
pub(crate) fn alternations(
    piece: &Piece,
    places: &[Place],
    written: &[score::Moment],
) -> Vec<Letters> {
    let mut wanted = vec![Letters::default(); places.len()];
    let mut struck: BTreeMap<i32, [Option<(usize, SpelledPitch)>; 2]> = BTreeMap::new();
    for (index, place) in places.iter().enumerate() {
        let notes = place.written.map_or(&[][..], |at| &written[at].notes);
        let notes = notes.iter().filter_map(|&note| piece.notes.get(note));
        for note in notes.filter(|note| note.is_attack()) {
            let third = (index, note.string);
            let before = struck.entry(note.string.midi()).or_default();
            if let [Some(first), Some(second)] = *before
                && quick(places, first.0, second.0)
                && quick(places, second.0, index)
                && first.1 == third.1
                && first.1 != second.1
            {
                let both = named(first.1).or(named(second.1));
                for at in [first.0, second.0, index] {
                    wanted[at] = wanted[at].or(both);
                }
            }
            *before = [before[1], Some(third)];
        }
    }
    wanted
}

fn quick(places: &[Place], from: usize, to: usize) -> bool {
    from < to && places[to].at_us.saturating_sub(places[from].at_us) <= QUICK_US
}

/// The letter as its pedal must stand; nothing where no pedal does that.
fn named(pitch: SpelledPitch) -> Letters {
    Alteration::from_semitones(i64::from(pitch.alter)).map_or_else(Letters::default, |alteration| {
        Letters::default().with(pitch.letter, alteration)
    })
}
