//! From a piece to the cheapest steps: searches that look wider and wider until nothing cheaper
//! can have been passed over.

use std::cell::OnceCell;

use harp::Harp;

use crate::asked::asked;
use crate::by_key::ByKey;
use crate::code::Code;
use crate::planner::codes;
use crate::prices::move_prices;
use crate::search::{Problem, Step, Width, search};
use crate::untimed::Untimed;
use crate::ways::Strings;
use crate::{Demand, Feet, Wishes};

/// Everything known about a piece on a harp before it is planned.
pub(crate) struct Ready<'a> {
    pub(crate) demand: &'a Demand,
    pub(crate) wishes: &'a Wishes,
    pub(crate) strings: Strings,
    pub(crate) by_key: ByKey,
    pub(crate) problem: Problem<'a>,
    timeless: OnceCell<Vec<Code>>,
}

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

impl<'a> Ready<'a> {
    pub(crate) fn new(demand: &'a Demand, harp: &Harp, wishes: &'a Wishes) -> Self {
        let strings = Strings::of(harp, wishes);
        let by_key = ByKey::choose(demand, &strings, wishes);
        let asked = asked(demand, &strings, wishes, |moment, string| {
            by_key.at(moment, string)
        });
        let prices = move_prices(demand, wishes);
        let untimed = Untimed::of(&asked, &prices);
        let at_us = demand.moments.iter().map(|m| m.at_us as i64).collect();
        Self {
            demand,
            wishes,
            strings,
            by_key,
            problem: Problem {
                at_us,
                asked,
                prices,
                untimed,
                wishes,
            },
            timeless: OnceCell::new(),
        }
    }

    /// The cheapest steps, or the best found within the work allowed.
    pub(crate) fn solve(&self) -> Solved {
        let (feet, work) = (self.wishes.feet, self.wishes.work_limit);
        solve(&self.problem, feet, u64::MAX, work).unwrap_or_default()
    }

    /// The settings that one would take if feet needed no time.
    pub(crate) fn timeless(&self) -> &[Code] {
        self.timeless.get_or_init(|| {
            let feet = Feet::with_least_time(0);
            let solved = solve(&self.problem, feet, u64::MAX, self.wishes.work_limit);
            codes(&solved.unwrap_or_default().steps, self.demand.moments.len())
        })
    }
}

/// The cheapest steps that cost less than a bound; `None` if there are none (or none was found).
pub(crate) fn solve(
    problem: &Problem<'_>,
    feet: Feet,
    below: u64,
    work: u64,
) -> Option<Solved> {
    let moved = u64::from(problem.wishes.weights.moved);
    let widths = [
        (0, 64),
        (2 * moved, 256),
        (u64::MAX, 2048),
        (u64::MAX, usize::MAX),
    ];
    let mut best: Option<Solved> = None;
    let (mut spent, mut proven) = (0, 0);
    for (slack, ways) in widths {
        let found = search(
            problem,
            feet,
            Width {
                slack,
                ways,
                below: best.as_ref().map_or(below, |best| best.cost),
                work: work.saturating_sub(spent),
            },
        );
        spent += found.work;
        proven = proven.max(found.unseen);
        if let Some((cost, steps)) = found.best {
            best = Some(Solved {
                steps,
                cost,
                ..Solved::default()
            });
        }
        let enough = best.as_ref().map_or(below, |best| best.cost);
        if found.unseen >= enough || spent > work {
            break;
        }
    }
    best.map(|best| Solved {
        least: proven.min(best.cost),
        work: spent,
        ..best
    })
}
