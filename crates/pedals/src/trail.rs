//! The narrowest search, kept in pieces: where neither what is asked nor sight has changed, and what
//! comes in is the same, a piece is not searched again.
//!
//! Costs that are higher by the same amount throughout make no difference to a search; so a piece is
//! the same if its first ways of standing cost the same beside each other.

use crate::Feet;
use crate::bound::Bound;
use crate::frontier::Label;
use crate::problem::Problem;
use crate::search::{Found, Run, Step, Width, cheapest, traced};

/// Moments in a piece.
const LONG: usize = 32;

/// The pieces of the last search.
#[derive(Default)]
pub(crate) struct Trail {
    pieces: Vec<Option<Piece>>,
}

struct Piece {
    /// The ways of standing before it, in their order.
    before: Vec<Label>,
    /// Those after it.
    after: Vec<Label>,
    /// Its steps; the first are the ways before it.
    steps: Vec<Step>,
    /// How much more than the least before it what was passed over might cost.
    unseen: u64,
}

impl Trail {
    /// The same as [`crate::search::search`]; rows of the bound that have changed since are looked at
    /// again. Steps that cost no less than the width allows are found too.
    pub(crate) fn search(
        &mut self,
        problem: &Problem<'_>,
        feet: Feet,
        bound: &mut Bound,
        width: Width,
    ) -> Found {
        let moments = problem.at_us.len();
        let count = moments.saturating_sub(1).div_ceil(LONG);
        self.pieces.resize_with(count, || None);
        self.forget(&bound.take_changed());
        let any = Width {
            below: u64::MAX,
            ..width
        };
        let mut run = Run::new(problem, feet, bound, any);
        let mut labels = in_order(run.openings());
        let openings: Vec<Step> = labels.iter().map(Step::root).collect();
        let mut unseen = run.unseen;
        for (index, kept) in self.pieces.iter_mut().enumerate() {
            let floor = least(&labels);
            // where something cheaper was passed over, it is worth knowing where it disappoints
            let hopeless = floor.min(unseen) >= width.below;
            if labels.is_empty() || hopeless || run.work > width.work {
                return Found {
                    best: None,
                    unseen: unseen.min(floor),
                    work: run.work,
                };
            }
            let piece = match kept.take().filter(|piece| piece.begins_with(&labels)) {
                Some(piece) => piece,
                None => {
                    let first = index * LONG + 1;
                    Piece::searched(&mut run, &labels, first..moments.min(first + LONG))
                }
            };
            unseen = unseen.min(floor.saturating_add(piece.unseen));
            labels = piece.after(&labels);
            *kept = Some(piece);
        }
        let best = cheapest(&labels).map(|(cost, last)| (cost, self.trace(&openings, last)));
        Found {
            best,
            unseen,
            work: run.work,
        }
    }

    /// Forgets the pieces in which one of these rows, or what is asked there, matters.
    fn forget(&mut self, rows: &[usize]) {
        for &row in rows {
            for moment in row.saturating_sub(2)..=row {
                if let Some(piece) = self.pieces.get_mut(moment / LONG) {
                    *piece = None;
                }
            }
        }
    }

    /// The steps to a way of standing at the end.
    fn trace(&self, openings: &[Step], last: usize) -> Vec<Step> {
        let mut path = Vec::new();
        let mut at = last;
        for piece in self.pieces.iter().rev().flatten() {
            let mut own = traced(&piece.steps, piece.after[at].step);
            // the first is the way of standing before the piece
            at = piece.root(piece.after[at].step);
            path.extend(own.drain(1..).rev());
        }
        path.extend(openings.get(at));
        path.reverse();
        path
    }
}

impl Piece {
    fn searched(run: &mut Run<'_>, before: &[Label], moments: std::ops::Range<usize>) -> Self {
        run.steps = before.iter().map(Step::root).collect();
        run.unseen = u64::MAX;
        let mut labels: Vec<Label> = before
            .iter()
            .zip(0..)
            .map(|(label, step)| Label { step, ..*label })
            .collect();
        for moment in moments {
            run.before(moment, &labels);
            labels = run.arrive(moment);
        }
        Self {
            before: before.to_vec(),
            after: in_order(labels),
            steps: std::mem::take(&mut run.steps),
            unseen: match run.unseen {
                u64::MAX => u64::MAX,
                unseen => unseen - least(before).min(unseen),
            },
        }
    }

    /// Whether these are its first ways of standing, and cost the same beside each other.
    fn begins_with(&self, labels: &[Label]) -> bool {
        let beside = |all: &[Label], label: &Label| label.cost.wrapping_sub(all[0].cost);
        labels.len() == self.before.len()
            && labels.iter().zip(&self.before).all(|(new, old)| {
                (new.code, new.home) == (old.code, old.home)
                    && beside(labels, new) == beside(&self.before, old)
            })
    }

    /// The ways of standing after it, as much dearer as those before it are.
    fn after(&self, before: &[Label]) -> Vec<Label> {
        let cost = before[0].cost.wrapping_sub(self.before[0].cost);
        let more = least(before).wrapping_sub(least(&self.before));
        let after = self.after.iter();
        after
            .map(|label| Label {
                cost: label.cost.wrapping_add(cost),
                least: label.least.wrapping_add(more),
                ..*label
            })
            .collect()
    }

    /// From which way of standing before it a step comes.
    fn root(&self, step: u32) -> usize {
        let mut at = step as usize;
        while let Some(step) = self.steps.get(at).filter(|_| at >= self.before.len()) {
            at = step.before as usize;
        }
        at
    }
}

fn in_order(mut labels: Vec<Label>) -> Vec<Label> {
    labels.sort_unstable_by_key(|label| (label.code, label.home, label.cost));
    labels
}

fn least(labels: &[Label]) -> u64 {
    let all = labels.iter().map(|label| label.least);
    all.min().unwrap_or(u64::MAX)
}
