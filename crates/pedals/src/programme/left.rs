//! How each harp was left: what stands already when the next piece begins.

use std::collections::BTreeMap;

use harp::{HarpKind, OpenTuning, Setting, StringName};
use pitch::{Letter, ReferencePitch, SpelledPitch};

use super::{Known, LeversBefore, Needs, PedalBefore, ProgrammePiece};
use crate::tuned::key_sets;
use crate::{KeySet, LeverPlan, PaperPart};

/// Every harp as it was left.
#[derive(Debug, Default)]
pub(super) struct Left<'a>(BTreeMap<&'a str, Stands>);

#[derive(Debug, Default)]
struct Stands {
    pedals: Setting,
    levers: Option<(OpenTuning, Vec<StringName>)>,
    reference: Option<ReferencePitch>,
    keys: BTreeMap<StringName, SpelledPitch>,
}

impl<'a> Left<'a> {
    /// What a piece needs as the harp stands now; and leaves the harp as the piece does.
    pub(super) fn before(&mut self, piece: &ProgrammePiece<'a>) -> Needs {
        let stands = self.0.entry(piece.harp_name).or_default();
        let mut needs = Needs {
            first: stands.reference.is_none(),
            left: stands.pedals,
            other_reference: stands.reference.filter(|before| *before != piece.reference),
            ..Needs::default()
        };
        stands.reference = Some(piece.reference);
        match piece.known {
            Known::Pedals(demand, plan) => {
                needs.by_key = key_sets(demand, plan);
                needs.opening = plan.opening().unwrap_or_default();
                needs.pedals = pedals(stands.pedals, needs.opening);
                stands.pedals = over(
                    stands.pedals,
                    plan.settings.last().copied().unwrap_or_default(),
                );
            }
            Known::Levers(_, plan) => {
                let on = plan.levers.clone();
                needs.levers = Some(levers(stands, plan.open, on));
                stands.levers = Some((plan.open, at_the_end(plan)));
            }
            Known::Paper(part) if piece.harp.kind() == HarpKind::Pedal => {
                needs.by_key = of_paper(part);
                needs.opening = part.opening(0);
                needs.pedals = pedals(stands.pedals, needs.opening);
                stands.pedals = over(stands.pedals, part.ending());
            }
            Known::Outline(outline) => {
                needs.by_key = outline.by_key.clone();
                needs.opening = outline.opening;
                needs.pedals = pedals(stands.pedals, needs.opening);
                stands.pedals = over(stands.pedals, outline.ending);
            }
            Known::Paper(_) | Known::Nothing => {}
        }
        needs.turned = turned(&mut stands.keys, &needs.by_key);
        needs
    }
}

/// What must be turned before these are played; and leaves the strings as the last of them.
fn turned(stand: &mut BTreeMap<StringName, SpelledPitch>, wanted: &[KeySet]) -> Vec<KeySet> {
    let at_first = |set: &&KeySet| set.movement == 0 && set.in_rest_at.is_none();
    let stands = |set: &&KeySet| {
        let there = stand.get(&set.string);
        there.is_some_and(|pitch| pitch.sounds_like(set.pitch))
    };
    let turned = wanted.iter().filter(at_first).filter(|set| !stands(set));
    let turned: Vec<KeySet> = turned.copied().collect();
    stand.extend(wanted.iter().map(|set| (set.string, set.pitch)));
    turned
}

fn pedals(left: Setting, opening: Setting) -> Vec<PedalBefore> {
    let order = Setting::PEDAL_ORDER.into_iter();
    let moved = order.filter_map(|letter| {
        let (from, to) = (left.get(letter), opening.get(letter)?);
        (from != Some(to)).then_some(PedalBefore { letter, from, to })
    });
    moved.collect()
}

/// A setting, and below it what it does not name.
fn over(below: Setting, setting: Setting) -> Setting {
    let named = Letter::ALL
        .into_iter()
        .filter_map(|letter| Some((letter, setting.get(letter)?)));
    named.fold(below, |all, (letter, to)| all.with(letter, to))
}

fn levers(stands: &Stands, open: OpenTuning, on: Vec<StringName>) -> LeversBefore {
    let before = stands.levers.as_ref();
    let other_open = before
        .map(|(open, _)| *open)
        .filter(|&before| before != open);
    let stood: &[StringName] = before.map_or(&[], |(_, on)| on);
    let off = stood
        .iter()
        .filter(|string| !on.contains(string))
        .map(|&string| (string, false));
    let up = on
        .iter()
        .filter(|string| !stood.contains(string))
        .map(|&string| (string, true));
    let mut flips: Vec<(StringName, bool)> = off.chain(up).collect();
    flips.sort_by_key(|&(string, _)| string);
    LeversBefore {
        open,
        other_open,
        on,
        flips,
    }
}

fn at_the_end(plan: &LeverPlan) -> Vec<StringName> {
    let mut on = plan.levers.clone();
    for flip in &plan.flips {
        on.retain(|&string| string != flip.string);
        if flip.on {
            on.push(flip.string);
        }
    }
    on.sort_unstable();
    on
}

fn of_paper(part: &PaperPart) -> Vec<KeySet> {
    let movements = part.movements.iter().enumerate();
    let sets = movements.flat_map(|(movement, one)| {
        one.by_key.iter().map(move |&(string, pitch)| KeySet {
            string,
            pitch,
            movement,
            in_rest_at: None,
        })
    });
    sets.collect()
}
