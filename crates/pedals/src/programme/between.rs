//! Strings without discs that two pieces or movements want otherwise.

use std::collections::BTreeMap;

use harp::StringName;
use pitch::SpelledPitch;

use super::{Needs, ProgrammePiece, Retuning, Slot};

/// Every retuning of the evening, in order. What a string stands at before the first piece that wants it is not known,
/// so that it is none.
pub(super) fn retunings(pieces: &[ProgrammePiece<'_>], needs: &[Needs]) -> Vec<Retuning> {
    let mut stands: BTreeMap<(&str, StringName), (SpelledPitch, Slot)> = BTreeMap::new();
    let mut retunings = Vec::new();
    for (at, (piece, needs)) in pieces.iter().zip(needs).enumerate() {
        for set in &needs.by_key {
            let slot = Slot {
                piece: at,
                movement: set.movement,
            };
            let before = stands.insert((piece.harp_name, set.string), (set.pitch, slot));
            let Some((from, after)) = before else {
                continue;
            };
            if from.sounds_like(set.pitch) {
                continue;
            }
            retunings.push(Retuning {
                harp_name: piece.harp_name.to_owned(),
                string: set.string,
                from,
                to: set.pitch,
                after,
                before: slot,
                in_rest_at: set.in_rest_at,
            });
        }
    }
    retunings
}
