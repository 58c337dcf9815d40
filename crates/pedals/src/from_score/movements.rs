//! Movements in one file.

use std::collections::BTreeSet;

use score::Piece;

use crate::Moment;

/// The first moment of each movement after the first: bars are counted anew from 1 there. A bar
/// before it that is not counted is its upbeat.
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
    movements
}
