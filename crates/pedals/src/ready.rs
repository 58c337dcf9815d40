//! Everything known about a piece on a harp before it is planned.

use std::cell::OnceCell;

use harp::Harp;

use crate::asked::{Asked, asked};
use crate::by_key::ByKey;
use crate::code::{Code, code_of};
use crate::filled::Filled;
use crate::prices::{MovePrices, move_prices};
use crate::problem::Problem;
use crate::search::Step;
use crate::solve::{Solved, solve};
use crate::ways::Strings;
use crate::{Demand, Feet, Wishes};

/// A piece, ready to be planned.
pub(crate) struct Ready<'a> {
    pub(crate) demand: &'a Demand,
    pub(crate) wishes: &'a Wishes,
    pub(crate) strings: Strings,
    pub(crate) by_key: ByKey,
    /// The moments of the problem: those of the demand and places between.
    pub(crate) filled: Filled,
    pub(crate) problem: Problem<'a>,
    timeless: OnceCell<Vec<Code>>,
}

/// What is known of a piece on a harp apart from its wishes.
pub(crate) struct Known {
    strings: Strings,
    by_key: ByKey,
    filled: Filled,
    at_us: Vec<i64>,
    asked: Vec<Asked>,
    prices: Vec<MovePrices>,
}

impl<'a> Ready<'a> {
    /// What is known of it, to be used again.
    pub(crate) fn known(self) -> Known {
        Known {
            strings: self.strings,
            by_key: self.by_key,
            filled: self.filled,
            at_us: self.problem.at_us,
            asked: self.problem.asked,
            prices: self.problem.prices,
        }
    }

    /// The same piece with wishes that differ in nothing but pins; what is asked is still that of
    /// before.
    pub(crate) fn again(demand: &'a Demand, wishes: &'a Wishes, known: Known) -> Self {
        Self {
            demand,
            wishes,
            strings: known.strings,
            by_key: known.by_key,
            filled: known.filled,
            problem: Problem {
                at_us: known.at_us,
                asked: known.asked,
                prices: known.prices,
                wishes,
            },
            timeless: OnceCell::new(),
        }
    }

    /// A piece for each tuning of the strings without discs that is worth trying.
    pub(crate) fn choices(demand: &'a Demand, harp: &Harp, wishes: &'a Wishes) -> Vec<ByKey> {
        ByKey::choices(demand, &Strings::of(harp, wishes), wishes)
    }

    /// A piece on a harp, its strings without discs tuned so.
    pub(crate) fn new(demand: &'a Demand, harp: &Harp, wishes: &'a Wishes, by_key: ByKey) -> Self {
        let strings = Strings::of(harp, wishes);
        let filled = Filled::of(demand);
        let mut spread = vec![Asked::default(); filled.origin.len()];
        let tuned = |moment, string| by_key.at(moment, string);
        let asked = asked(demand, &strings, wishes, tuned);
        for (asked, &place) in asked.into_iter().zip(&filled.place) {
            spread[place] = asked;
        }
        let moments = &filled.demand.moments;
        let problem = Problem {
            at_us: moments.iter().map(|m| m.at_us as i64).collect(),
            asked: spread,
            prices: move_prices(&filled.demand, wishes),
            wishes,
        };
        Self {
            demand,
            wishes,
            strings,
            by_key,
            filled,
            problem,
            timeless: OnceCell::new(),
        }
    }

    /// The cheapest steps, or the best found within the work allowed.
    pub(crate) fn solve(&self, work: u64) -> Solved {
        solve(&self.problem, self.wishes.feet, u64::MAX, work).unwrap_or_default()
    }

    /// The setting at each moment of the demand.
    pub(crate) fn codes(&self, steps: &[Step]) -> Vec<Code> {
        let mut steps = steps.iter().peekable();
        let mut code = code_of(&harp::Setting::default());
        let places = self.filled.place.iter();
        let at = places.map(|&place| {
            while let Some(step) = steps.next_if(|step| step.moment as usize <= place) {
                code = step.code;
            }
            code
        });
        at.collect()
    }

    /// The settings that one would take if feet needed no time.
    pub(crate) fn timeless(&self) -> &[Code] {
        self.timeless.get_or_init(|| {
            let feet = Feet::with_least_time(0);
            let solved = solve(&self.problem, feet, u64::MAX, self.wishes.work_limit);
            self.codes(&solved.unwrap_or_default().steps)
        })
    }
}
