//! Strings without discs that two pieces or movements want otherwise.

use std::collections::BTreeMap;

use harp::StringName;
use pitch::SpelledPitch;

use super::{AtFirst, Needs, ProgrammePiece, Retuning, Slot};

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

/// How each harp is tuned before the evening.
pub(super) fn at_first(pieces: &[ProgrammePiece<'_>], needs: &[Needs]) -> Vec<AtFirst> {
    let mut harps: Vec<AtFirst> = Vec::new();
    for (piece, needs) in pieces.iter().zip(needs) {
        let at = harps
            .iter()
            .position(|harp| harp.harp_name == piece.harp_name);
        let at = at.unwrap_or_else(|| {
            harps.push(AtFirst {
                harp_name: piece.harp_name.to_owned(),
                reference: piece.reference,
                open: None,
                discless: Vec::new(),
            });
            harps.len() - 1
        });
        let levers = needs.levers.as_ref();
        harps[at].open = harps[at].open.or(levers.map(|levers| levers.open));
        let discless = &mut harps[at].discless;
        for set in &needs.by_key {
            if !discless.iter().any(|&(string, _)| string == set.string) {
                discless.push((set.string, set.pitch));
            }
        }
        discless.sort_by_key(|&(string, _)| string);
    }
    harps
}
