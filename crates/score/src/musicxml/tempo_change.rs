//! Tempos that are told by the one before them: `♩. = ♩`.

use super::direction::sensible;
use crate::doubts::Doubts;
use crate::{Doubt, Fraction, Tempo, tempo};

/// From a written place on, quarters go so many times as fast.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TempoChange {
    /// Index of the measure.
    pub(crate) measure: usize,
    /// Quarters from its beginning.
    pub(crate) offset: Fraction,
    /// How many times as fast.
    pub(crate) factor: f64,
}

/// All tempos in written order, those that are told by the one before reckoned. Where a tempo stands
/// in figures at the same place, it counts. What was doubtful is told.
pub(crate) fn tempos(
    mut tempos: Vec<Tempo>,
    mut changes: Vec<TempoChange>,
    doubts: &mut Doubts,
) -> Vec<Tempo> {
    let (place, by_place) = (
        |tempo: &Tempo| (tempo.measure, tempo.offset),
        |change: &TempoChange| (change.measure, change.offset),
    );
    tempos.sort_by_key(place);
    changes.sort_by_key(by_place);
    changes.dedup_by_key(|change| by_place(change));
    let start = (0, Fraction::ZERO);
    let first = tempos.first().map(place);
    let changed_first = changes.iter().map(by_place).find(|at| *at > start);
    if tempos.is_empty() {
        let quarters_per_minute = tempo::UNSAID;
        doubts.add(
            None,
            Doubt::NoTempo {
                quarters_per_minute,
            },
        );
    }
    // a change must have something to change
    if changed_first.is_some_and(|at| first.is_none_or(|first| first > at)) {
        let otherwise = tempos.first().map(|tempo| tempo.quarters_per_minute);
        tempos.insert(
            0,
            Tempo {
                measure: 0,
                offset: Fraction::ZERO,
                quarters_per_minute: otherwise.unwrap_or(tempo::UNSAID),
            },
        );
    }
    let mut all: Vec<Tempo> = Vec::with_capacity(tempos.len() + changes.len());
    let mut given = tempos.into_iter().peekable();
    for change in changes {
        let at = by_place(&change);
        while let Some(next) = given.next_if(|next| place(next) <= at) {
            all.push(next);
        }
        let Some(last) = all.last().filter(|last| place(last) < at) else {
            continue;
        };
        let quarters_per_minute = last.quarters_per_minute * change.factor;
        if sensible(quarters_per_minute) {
            doubts.add(
                change.measure,
                Doubt::TempoByValues {
                    quarters_per_minute,
                },
            );
            all.push(Tempo {
                measure: change.measure,
                offset: change.offset,
                quarters_per_minute,
            });
        }
    }
    all.extend(given);
    all
}
