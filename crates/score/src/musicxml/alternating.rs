//! `<tremolo type="start">` and `<tremolo type="stop">`: two notes or chords that alternate.

use std::collections::BTreeMap;

use super::part_reader::PartReader;
use crate::{Anchor, Fraction, Note, Tremolo};

/// The notes of a tremolo, as far as they have been read.
#[derive(Clone, Debug)]
pub(crate) struct Alternating {
    pub(crate) notes: Vec<Anchor>,
    pub(crate) measure: usize,
    pub(crate) from: Fraction,
    pub(crate) to: Fraction,
}

/// Takes a finished chord at which a tremolo starts, or stops where a voice has one open.
pub(crate) fn read(reader: &mut PartReader<'_>, chord: &[Note], starts: bool) {
    let Some(first) = chord.first() else { return };
    let here = Alternating {
        notes: chord.iter().map(|note| note.anchor).collect(),
        measure: first.measure,
        from: first.offset,
        to: first.end(),
    };
    let before = if starts {
        reader.alternating.insert(first.voice, here)
    } else {
        match reader.alternating.remove(&first.voice) {
            Some(mut begun) if begun.to == here.from => {
                begun.notes.extend(here.notes);
                begun.to = here.to;
                reader.gathered.tremolo(begun);
                None
            }
            _ => Some(here),
        }
    };
    if before.is_some() {
        reader.doubt_element(ALONE);
    }
}

/// Gives up those that have no second half by the end of a measure.
pub(crate) fn finish(reader: &mut PartReader<'_>) {
    if !std::mem::take(&mut reader.alternating).is_empty() {
        reader.doubt_element(ALONE);
    }
}

const ALONE: &str = "one half of a tremolo of two notes";

/// The tremolos of sorted notes.
pub(crate) fn tremolos(found: Vec<Alternating>, notes: &[Note]) -> Vec<Tremolo> {
    if found.is_empty() {
        return Vec::new();
    }
    let places: BTreeMap<Anchor, usize> = notes
        .iter()
        .enumerate()
        .map(|(place, note)| (note.anchor, place))
        .collect();
    let mut tremolos: Vec<Tremolo> = found
        .into_iter()
        .map(|found| {
            let mut notes: Vec<usize> = found
                .notes
                .iter()
                .filter_map(|anchor| places.get(anchor).copied())
                .collect();
            notes.sort_unstable();
            Tremolo {
                notes,
                measure: found.measure,
                from: found.from,
                to: found.to,
            }
        })
        .collect();
    tremolos.sort_by(|a, b| (a.measure, a.from, &a.notes).cmp(&(b.measure, b.from, &b.notes)));
    tremolos
}
