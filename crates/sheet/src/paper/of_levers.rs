//! A sheet made of a plan for levers: by string, as each lever moves its own.

use std::collections::BTreeMap;

use pedals::{Demand, Flip, Hand, LeverPlan, Quarters};
use pitch::{Alteration, SpelledPitch};
use score::Piece;

use super::of_plan::{Head, Written};
use crate::{
    BarChanges, BeatChanges, LeverOpening, MovementSheet, Pencilled, PieceSheet, Remark, RemarkKind,
};

impl PieceSheet {
    /// The sheet of a score that was planned for levers: `plan` must be of `demand`, and that of `piece`. Its movements
    /// are one: levers are not set anew between them by a plan.
    pub fn of_levers(piece: &Piece, demand: &Demand, plan: &LeverPlan, head: Head) -> Self {
        let written = Written { piece, demand };
        let movement = MovementSheet {
            levers: Some(LeverOpening {
                open: plan.open,
                on: plan.levers.clone(),
            }),
            bars: bars(written, plan),
            ..MovementSheet::default()
        };
        Self {
            title: head.title.unwrap_or_else(|| piece.title.clone()),
            composer: head.composer.unwrap_or_else(|| piece.composer.clone()),
            harp: head.harp,
            reference: head.reference,
            movements: vec![movement],
            remarks: remarks(written, plan),
            before: head.before,
        }
    }
}

/// What a string sounds after a flip: open, or a semitone higher.
fn sounds(plan: &LeverPlan, flip: &Flip) -> Alteration {
    let open = plan.open.alteration(flip.string.letter);
    match (open, flip.on) {
        (open, false) => open,
        (Alteration::Flat, true) => Alteration::Natural,
        (_, true) => Alteration::Sharp,
    }
}

/// A flip, and the times of playing at which it is made.
type AtPasses<'a> = (&'a Flip, Vec<u32>);

/// Flips by bar and beat; one that is made at every time of playing is printed once.
fn bars(written: Written<'_>, plan: &LeverPlan) -> Vec<BarChanges> {
    let mut bars: BTreeMap<u32, BTreeMap<Quarters, Vec<AtPasses<'_>>>> = BTreeMap::new();
    for flip in &plan.flips {
        let moment = &written.demand.moments[flip.moment];
        let beats = bars.entry(moment.measure).or_default();
        let flips = beats.entry(moment.beat).or_default();
        let same = |other: &Flip| {
            (other.string, other.on, other.hand) == (flip.string, flip.on, flip.hand)
        };
        match flips.iter_mut().find(|(other, _)| same(other)) {
            Some((_, passes)) => passes.push(moment.pass),
            None => flips.push((flip, vec![moment.pass])),
        }
    }
    let told = bars.into_iter().map(|(measure, beats)| {
        let played = passes_of(written.demand, measure);
        let beats = beats.into_iter().map(|(beat, flips)| {
            let of_hand = |hand: Hand| {
                let flips = flips.iter().filter(move |(flip, _)| flip.hand == hand);
                flips.map(|(flip, passes)| Pencilled {
                    letter: flip.string.letter,
                    to: sounds(plan, flip),
                    string: Some(flip.string),
                    only: if passes.len() < played {
                        passes.clone()
                    } else {
                        Vec::new()
                    },
                })
            };
            BeatChanges {
                beat: written.beat(measure, beat),
                right: of_hand(Hand::Right).collect(),
                left: of_hand(Hand::Left).collect(),
            }
        });
        BarChanges {
            bar: written.bar(measure),
            beats: beats.collect(),
        }
    });
    told.collect()
}

/// How often a measure is played.
fn passes_of(demand: &Demand, measure: u32) -> usize {
    let moments = demand
        .moments
        .iter()
        .filter(|moment| moment.measure == measure);
    let mut passes: Vec<u32> = moments.map(|moment| moment.pass).collect();
    passes.sort_unstable();
    passes.dedup();
    passes.len()
}

fn remarks(written: Written<'_>, plan: &LeverPlan) -> Vec<Remark> {
    let other = plan.respelled.iter().map(|head| {
        let (from, played): (SpelledPitch, SpelledPitch) = (head.written, head.played);
        (
            head.moment,
            RemarkKind::OtherString {
                written: from,
                played,
            },
        )
    });
    let lost = plan.cannot.iter().map(|head| {
        let what = RemarkKind::LostToLevers {
            pitch: head.pitch,
            reason: head.reason,
            remedies: head.remedies.clone(),
        };
        (head.moment, what)
    });
    written.remarks(other.chain(lost))
}
