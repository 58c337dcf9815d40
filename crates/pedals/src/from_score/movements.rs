//! Movements in one file.

use std::collections::{BTreeMap, BTreeSet};

use score::Piece;

use crate::Moment;

/// The first moment of each movement after the first: bars are counted anew from 1 there, and what was
/// written before is not played again. A bar before it that is not counted is its upbeat.
pub(crate) fn movements(piece: &Piece, moments: &[Moment]) -> Vec<usize> {
    let begins = |index: usize| {
        let number = |at: usize| piece.measures.get(at).map(|measure| measure.number.trim());
        let upbeat = number(index) == Some("0") && number(index + 1) == Some("1");
        let anew = number(index) == Some("1") && number(index.wrapping_sub(1)) != Some("0");
        index > 0 && (upbeat || anew)
    };
    let mut starts: BTreeSet<u32> = (0..piece.measures.len())
        .filter(|&index| begins(index))
        .map(|index| piece.measures[index].index)
        .collect();
    let mut movements = Vec::new();
    for (index, moment) in moments.iter().enumerate() {
        // a movement is played through before the next: its first bar comes first
        if starts.remove(&moment.measure) && index > 0 {
            movements.push(index);
        }
    }
    let last = last_playing(moments);
    movements.retain(|&first| {
        let mut before = moments[..first].iter();
        before.all(|moment| last[&moment.measure] < first)
    });
    movements
}

/// For each measure the last of its moments.
fn last_playing(moments: &[Moment]) -> BTreeMap<u32, usize> {
    let places = moments.iter().enumerate();
    places
        .map(|(place, moment)| (moment.measure, place))
        .collect()
}
