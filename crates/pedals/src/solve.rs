//! From a piece to the cheapest steps: the search looks along its sight; where that proved too
//! hopeful, sight is made keener; and where nothing can be made keener, it looks wider.

use std::cell::Cell;

use crate::Feet;
use crate::bound::Bound;
use crate::hindsight::keener;
use crate::problem::Problem;
use crate::search::{Step, Width, search};
use crate::trail::Trail;

/// The cheapest steps found.
#[derive(Clone, Debug, Default)]
pub(crate) struct Solved {
    /// The opening first; empty for a piece without moments.
    pub(crate) steps: Vec<Step>,
    pub(crate) cost: u64,
    /// No plan costs less than this.
    pub(crate) least: u64,
    pub(crate) work: u64,
}

/// Steps of a search that are as much work as a row of a bound.
pub(crate) const A_ROW: u64 = 100;

/// What a search for steps that cost less than a bound came to.
pub(crate) struct Sought {
    /// The cheapest found, if any.
    pub(crate) best: Option<(u64, Vec<Step>)>,
    /// No steps cost less than this; what costs as much as the bound was not looked for.
    pub(crate) least: u64,
    pub(crate) work: u64,
}

impl Sought {
    /// What was found, as the cheapest there is; nothing at no cost if nothing was.
    pub(crate) fn solved(self) -> Solved {
        let (cost, steps) = self.best.unwrap_or_default();
        Solved {
            steps,
            cost,
            least: self.least.min(cost),
            work: self.work,
        }
    }
}

/// The cheapest steps that cost less than a bound; `None` if there are none (or none was found).
pub(crate) fn solve(problem: &Problem<'_>, feet: Feet, below: u64, work: u64) -> Option<Solved> {
    let mut bound = Bound::of(problem, &feet);
    let rows = A_ROW * bound.reckoned();
    let left = work.saturating_sub(rows);
    let mut sought = seek(
        problem,
        feet,
        &mut bound,
        &mut Trail::default(),
        below,
        left,
    );
    sought.work += rows;
    sought.best.map(|(cost, steps)| Solved {
        steps,
        cost,
        least: sought.least,
        work: sought.work,
    })
}

/// The same along a bound of this very problem, which is made keener where it must be.
pub(crate) fn seek(
    problem: &Problem<'_>,
    feet: Feet,
    bound: &mut Bound,
    trail: &mut Trail,
    below: u64,
    work: u64,
) -> Sought {
    let mut seeking = Seeking::new(problem, feet, below, work);
    seeking.seek(bound, trail);
    seeking.sought()
}

/// Steps that are mostly the cheapest, and what none cost less than, found without looking wide.
pub(crate) fn glance(
    problem: &Problem<'_>,
    feet: Feet,
    bound: &mut Bound,
    trail: &mut Trail,
    work: u64,
) -> Sought {
    let mut seeking = Seeking::new(problem, feet, u64::MAX, work);
    for round in 0..2 {
        if seeking.search(bound, trail, 0, 64) || !seeking.is_keener(bound, round) {
            break;
        }
    }
    seeking.sought()
}

/// Whether there are steps that cost less than a bound; `false` too if none was found within the
/// work allowed, of which what was done is taken off. Where few steps disappoint it is quicker to find dearer ones first and to mend them;
/// else, and in short passages, to look for nothing dearer.
pub(crate) fn playable(
    problem: &Problem<'_>,
    feet: Feet,
    below: u64,
    work: &Cell<u64>,
    mend: bool,
) -> bool {
    let sought = if mend { u64::MAX } else { below };
    let mut bound = Bound::of(problem, &feet);
    work.set(work.get().saturating_sub(A_ROW * bound.reckoned()));
    if work.get() == 0 {
        return false;
    }
    let mut seeking = Seeking::new(problem, feet, sought, work.get());
    seeking.asked = below;
    seeking.seek(&mut bound, &mut Trail::default());
    work.set(work.get().saturating_sub(seeking.spent));
    seeking.best.is_some_and(|(cost, _)| cost < below)
}

struct Seeking<'a> {
    problem: &'a Problem<'a>,
    feet: Feet,
    below: u64,
    best: Option<(u64, Vec<Step>)>,
    /// The steps found last, however dear.
    last: Option<Vec<Step>>,
    proven: u64,
    /// It is only asked whether anything costs less than this; 0 where the cheapest is sought.
    asked: u64,
    spent: u64,
    work: u64,
}

impl<'a> Seeking<'a> {
    fn new(problem: &'a Problem<'a>, feet: Feet, below: u64, work: u64) -> Self {
        Self {
            problem,
            feet,
            below,
            best: None,
            last: None,
            proven: 0,
            asked: 0,
            spent: 0,
            work,
        }
    }

    /// Searches until nothing better can be found, or until what is asked is known.
    fn seek(&mut self, bound: &mut Bound, trail: &mut Trail) {
        let moved = u64::from(self.problem.wishes.weights.moved);
        for round in 0..6 {
            let (slack, ways) = if round > 1 { (moved, 512) } else { (0, 64) };
            if self.search(bound, trail, slack, ways) || self.is_answered() {
                return;
            }
            if !self.is_keener(bound, round) {
                break;
            }
        }
        for (slack, ways) in [(moved, 256), (4 * moved, 2048), (u64::MAX, usize::MAX)] {
            if self.search(bound, trail, slack, ways) || self.is_answered() {
                return;
            }
        }
    }

    /// Makes sight keener where the steps found last disappointed; whether it could be made so.
    fn is_keener(&mut self, bound: &mut Bound, round: u32) -> bool {
        let steps = self.last.as_deref();
        let counted = keener(self.problem, self.feet, bound, steps, round);
        if counted == bound.counted() {
            return false;
        }
        let reckoned = bound.reckoned();
        bound.count(self.problem, &self.feet, counted);
        self.spent += A_ROW * (bound.reckoned() - reckoned);
        true
    }

    fn sought(self) -> Sought {
        let found = self.best.as_ref().map_or(self.below, |best| best.0);
        Sought {
            least: self.proven.min(found),
            best: self.best,
            work: self.spent,
        }
    }

    /// Whether it is known if anything costs less than what was asked.
    fn is_answered(&self) -> bool {
        let found = self.best.as_ref().is_some_and(|best| best.0 < self.asked);
        found || self.asked > 0 && self.proven >= self.asked
    }

    /// One search; whether nothing better can be found, or the work allowed is done.
    fn search(&mut self, bound: &mut Bound, trail: &mut Trail, slack: u64, ways: usize) -> bool {
        let enough = self.best.as_ref().map_or(self.below, |best| best.0);
        if self.proven >= enough || self.spent > self.work {
            return true;
        }
        let width = Width {
            slack,
            ways,
            below: enough,
            work: self.work - self.spent,
        };
        let found = if slack == 0 {
            trail.search(self.problem, self.feet, bound, width)
        } else {
            search(self.problem, self.feet, bound, width)
        };
        self.spent += found.work;
        self.proven = self.proven.max(found.unseen.min(enough));
        if let Some((cost, steps)) = found.best {
            if cost < enough {
                self.proven = self.proven.min(cost);
                self.best = Some((cost, steps.clone()));
            }
            self.last = Some(steps);
        }
        let enough = self.best.as_ref().map_or(self.below, |best| best.0);
        found.unseen >= enough || self.spent > self.work
    }
}

#[cfg(test)]
#[path = "../tests/made/piece.rs"]
mod piece;

#[cfg(test)]
mod tests {
    use super::piece::{Making, piece};
    use super::*;
    use crate::Wishes;
    use crate::by_key::ByKey;
    use crate::ready::Ready;

    /// The search without sight of feet, everything kept that might be cheaper, finds nothing
    /// cheaper: slow, but it needs nothing of what makes sight keen.
    #[track_caller]
    fn check(making: &Making, seed: u64, one_notch_us: u64, fewest: bool) -> bool {
        let demand = piece(making, seed);
        let wishes = if fewest {
            Wishes::fewest(&demand)
        } else {
            Wishes::comfortable()
        };
        let wishes = Wishes {
            feet: Feet::with_least_time(one_notch_us),
            any_octave: true,
            ..wishes
        };
        let harp = harp::Harp::named("pedal47").unwrap();
        let ready = Ready::new(&demand, &harp, &wishes, ByKey::default());
        let solved = ready.solve(wishes.work_limit);
        assert_eq!(solved.cost, solved.least);
        let blind = Bound::of(&ready.problem, &wishes.feet);
        let width = Width {
            slack: u64::MAX,
            ways: usize::MAX,
            below: solved.cost,
            work: u64::MAX,
        };
        let found = search(&ready.problem, wishes.feet, &blind, width);
        assert!(found.best.is_none(), "{:?} < {}", found.best, solved.cost);
        assert!(found.unseen >= solved.cost);
        // whether feet bound at all
        (0..crate::SETTINGS as u16).any(|code| {
            let opening = ready.problem.asked[0].price(code);
            opening + blind.from(1, code, [usize::MAX; 2]) < solved.cost
        })
    }

    #[test]
    fn what_makes_sight_keen_hides_nothing() {
        let mut bound = 0;
        for seed in 0..12 {
            let making = Making {
                measures: 3,
                tempo: [60, 90, 120][seed as usize % 3],
                chromatic: 3,
                key_lasts: 2,
            };
            let one_notch_us = [250_000, 400_000, 500_000, 700_000][seed as usize % 4];
            bound += usize::from(check(&making, seed, one_notch_us, seed % 2 == 0));
        }
        assert!(bound > 6, "feet mattered in {bound} pieces only");
    }
}
