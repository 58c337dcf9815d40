//! The same marks at every pass of a repeat, where that can be.
//!
//! The cheapest plan is found as the piece is played, pass by pass. Where a mark of it would be
//! wrong at another pass there are five ways on, and one of them is that of the best plan: the
//! pedal is not moved for that place at any pass; it stands there at every pass up, in the middle or
//! down; or the marks differ and that is paid for. Each way is planned anew, the most hopeful first,
//! until none that is left could be cheaper. What is planned anew is little: only what a pedal held
//! changes is reckoned again.

mod agreed;
mod rule;
mod sections;
mod stretch;

use std::collections::{BTreeMap, BTreeSet, BinaryHeap};

use crate::asked::{Asked, PIN};
use crate::bound::Bound;
use crate::playings::{OnlyThen, Playings};
use crate::prices::{MovePrices, STUCK};
use crate::problem::Problem;
use crate::ready::Ready;
use crate::solve::{A_ROW, Solved, Sought, glance, seek};
use crate::trail::Trail;
use agreed::agreed;
use rule::{Branch, How, Rule, marks_paid};

/// More than anything else but a pin: what breaking a rule costs.
const BROKEN: u64 = PIN >> 4;
/// So much is spent on a plan made again beyond its first search: some tens of milliseconds.
const SOON: u64 = 400_000;
/// Rules are tried for all marks at once so often.
const AT_ONCE: usize = 4;

/// The cheapest steps, marks that hold for some passes only paid for; or what costs no less than
/// the bound, if there are none.
pub(crate) fn with_same_marks(
    ready: &Ready<'_>,
    playings: &Playings,
    below: u64,
    work: u64,
) -> Solved {
    with_rules(ready, playings, below, work).0
}

/// What marks were held to in the best plan, and where that changes what is asked or paid.
#[derive(Default)]
pub(crate) struct Held {
    rules: Vec<Rule>,
    changed: BTreeSet<usize>,
    pub(crate) trail: Trail,
}

/// The same, with the bound as it stands at the end, and what the marks were held to.
pub(crate) fn with_rules(
    ready: &Ready<'_>,
    playings: &Playings,
    below: u64,
    work: u64,
) -> (Solved, Bound, Held) {
    let mut branching = Branching {
        ready,
        playings,
        problem: ready.problem.clone(),
        bound: Bound::to_be_changed(&ready.problem, &ready.wishes.feet),
        changed: BTreeSet::new(),
        unreckoned: BTreeSet::new(),
        trail: Trail::default(),
        best: Solved {
            cost: below,
            ..Solved::default()
        },
        rules: Vec::new(),
        best_rules: Vec::new(),
        spent: 0,
        surely: 0,
        work,
    };
    branching.spent = A_ROW * branching.bound.reckoned();
    let (least, rules) = branching.by_sections();
    if least < branching.best.cost {
        let sought = branching.under(&rules, u64::MAX);
        branching.straight_on(rules, &sought, work / 8 * 5);
    }
    branching.best.least = least.min(branching.best.cost);
    if least < branching.best.cost {
        let first = branching.under(&[], branching.best.cost);
        branching.all_at_once(&first);
        branching.straight_on(Vec::new(), &first, work / 8 * 7);
        let proven = branching.one_by_one(first).max(least);
        branching.best.least = proven.min(branching.best.cost);
    }
    branching.best.work = branching.spent;
    let held = Held {
        rules: branching.best_rules,
        changed: branching.changed,
        trail: branching.trail,
    };
    (branching.best, branching.bound, held)
}

/// The cheapest steps under the rules that marks were held to before, with a bound in which some
/// places have changed; `None` if there are none.
pub(crate) fn under_the_same_rules(
    ready: &Ready<'_>,
    playings: &Playings,
    bound: Bound,
    held: &mut Held,
    changed: Vec<usize>,
) -> Option<(Solved, Bound)> {
    let mut branching = Branching {
        ready,
        playings,
        problem: ready.problem.clone(),
        bound,
        changed: BTreeSet::new(),
        unreckoned: held.changed.iter().copied().chain(changed).collect(),
        trail: std::mem::take(&mut held.trail),
        best: Solved {
            cost: u64::MAX,
            ..Solved::default()
        },
        rules: Vec::new(),
        best_rules: Vec::new(),
        spent: 0,
        surely: 0,
        work: ready.wishes.work_limit,
    };
    let sought = branching.under(&held.rules, u64::MAX);
    let differ = branching.judged(&sought)?;
    // marks that need no rules to be the same are the best there are
    if held.rules.is_empty() && differ.is_empty() {
        branching.best.least = sought.least;
    } else {
        branching.straight_on(held.rules.clone(), &sought, SOON);
    }
    held.changed = branching.changed;
    held.trail = branching.trail;
    branching.best.work = branching.spent;
    Some((branching.best, branching.bound))
}

struct Branching<'a> {
    ready: &'a Ready<'a>,
    playings: &'a Playings,
    /// The piece under the rules of the branch looked at last, and its bound.
    problem: Problem<'a>,
    bound: Bound,
    changed: BTreeSet<usize>,
    /// Where the bound is not yet that of the problem.
    unreckoned: BTreeSet<usize>,
    trail: Trail,
    best: Solved,
    /// The rules looked at last, and those of the best.
    rules: Vec<Rule>,
    best_rules: Vec<Rule>,
    spent: u64,
    /// What no plan costs less than, by sections that were given up.
    surely: u64,
    /// So much may be spent.
    work: u64,
}

impl Branching<'_> {
    /// A good plan soon: no pedal is moved where a mark differs; where that brings a mark that
    /// differs again, it is held at all passes to where it moves to.
    fn all_at_once(&mut self, first: &Sought) {
        let mut rules: Vec<Rule> = Vec::new();
        let mut judged = self.judged(first);
        for round in 0..AT_ONCE {
            let Some(differ) = judged else {
                return;
            };
            let before = rules.len();
            for only in differ {
                let how = if round == 0 {
                    How::Unmoved
                } else {
                    How::At(only.to)
                };
                if !only.is_ruled(&rules) {
                    rules.push(Rule::of(&only, how));
                }
            }
            if rules.len() == before {
                return;
            }
            let sought = self.under(&rules, self.best.cost);
            judged = self.judged(&sought);
        }
    }

    /// A good plan where that one was not: from some rules on mark by mark, whichever way is cheapest
    /// for the moment, until so much is spent.
    fn straight_on(&mut self, mut rules: Vec<Rule>, first: &Sought, until: u64) {
        let pays = u64::from(self.ready.wishes.weights.passes_differ);
        let mut least = first.least.saturating_add(self.paid(&rules));
        let mut differ = self.judged(first).unwrap_or_default();
        while least < self.best.cost && self.spent < until {
            let Some(only) = differ.iter().find(|only| !only.is_ruled(&rules)) else {
                return;
            };
            let mut cheapest = (least.saturating_add(pays), How::Paid, differ.clone());
            for how in [How::Unmoved, How::At(only.to)] {
                let tried = [&rules[..], &[Rule::of(only, how)]].concat();
                let paid = self.paid(&tried);
                let sought = self.under(&tried, self.best.cost.saturating_sub(paid));
                let cost = sought.least.saturating_add(paid);
                if let Some(differ) = self.judged(&sought).filter(|_| cost < cheapest.0) {
                    cheapest = (cost, how, differ);
                }
                if cheapest.0 == least {
                    break;
                }
            }
            rules.push(Rule::of(only, cheapest.1));
            (least, differ) = (cheapest.0, cheapest.2);
        }
    }

    /// Branch by branch; what no plan costs less than.
    fn one_by_one(&mut self, first: Sought) -> u64 {
        let mut branches = BinaryHeap::from([Branch::of(first.least, 0, Vec::new())]);
        let mut first = Some(first);
        // what branches that cannot be followed any further may still cost
        let mut closed = u64::MAX;
        while let Some(branch) = branches.pop() {
            let least = u64::MAX - branch.hope;
            if least >= self.best.cost || self.spent > self.work {
                closed = closed.min(least);
                break;
            }
            let paid = self.paid(&branch.rules);
            let below = self.best.cost.saturating_sub(paid);
            let sought = match first.take() {
                Some(first) => first,
                None => self.under(&branch.rules, below),
            };
            let least = least.max(sought.least.saturating_add(paid));
            let Some(differ) = self.judged(&sought) else {
                closed = closed.min(least);
                continue;
            };
            let open = |only: &&OnlyThen| !only.is_settled(&branch.rules, &differ);
            let Some(only) = differ.iter().find(open) else {
                closed = closed.min(least);
                continue;
            };
            self.ways_on(&branch, only, least, &mut branches);
        }
        closed.min(self.best.cost)
    }

    /// The five ways on from a mark that differs.
    fn ways_on(
        &self,
        branch: &Branch,
        only: &OnlyThen,
        least: u64,
        branches: &mut BinaryHeap<Branch>,
    ) {
        let paid = self.paid(&branch.rules);
        for rule in self.five_ways(only, &branch.rules) {
            // mostly the pedal can as well be moved at another place, where all passes need it
            let preferred = match rule.how {
                How::Paid => 0,
                How::At(at) => 1 + u8::from(at == only.to),
                How::Unmoved => 3,
            };
            let rules = [&branch.rules[..], &[rule]].concat();
            let pays = self.paid(&rules) - paid;
            branches.push(Branch::of(least + pays, preferred, rules));
        }
    }

    /// What the rules say is paid.
    fn paid(&self, rules: &[Rule]) -> u64 {
        marks_paid(rules) as u64 * u64::from(self.ready.wishes.weights.passes_differ)
    }

    /// The marks that differ in what was found, if anything was that keeps the rules; it is
    /// remembered if it is the best so far.
    fn judged(&mut self, sought: &Sought) -> Option<BTreeSet<OnlyThen>> {
        let (cost, steps) = sought.best.as_ref()?;
        if cost % PIN >= BROKEN {
            return None;
        }
        let codes = self.ready.codes(steps);
        let mut differ = self.playings.only_then(&codes);
        let known = (&self.ready.filled, self.playings);
        let feet = self.ready.wishes.feet;
        let shifted = agreed(&self.problem, known, feet, (steps, &codes), &differ);
        let steps = shifted.as_ref().unwrap_or(steps);
        if shifted.is_some() {
            differ = self.playings.only_then(&self.ready.codes(steps));
        }
        let price = u64::from(self.ready.wishes.weights.passes_differ);
        let cost = cost + differ.len() as u64 * price;
        if cost < self.best.cost {
            self.best.steps.clone_from(steps);
            self.best.cost = cost;
            self.best_rules.clone_from(&self.rules);
        }
        Some(differ)
    }

    /// The cheapest steps under these rules.
    fn under(&mut self, rules: &[Rule], below: u64) -> Sought {
        let work = self.held_to(rules) / 8;
        let feet = self.ready.wishes.feet;
        let (bound, trail) = (&mut self.bound, &mut self.trail);
        let sought = seek(&self.problem, feet, bound, trail, below, work);
        self.spent += sought.work;
        sought
    }

    /// The same, as far as one soon sees.
    fn glance_under(&mut self, rules: &[Rule]) -> Sought {
        let work = self.held_to(rules) / 8;
        let feet = self.ready.wishes.feet;
        let (bound, trail) = (&mut self.bound, &mut self.trail);
        let sought = glance(&self.problem, feet, bound, trail, work);
        self.spent += sought.work;
        sought
    }

    /// Begins with these rules; the work that is left then.
    fn held_to(&mut self, rules: &[Rule]) -> u64 {
        self.rules = rules.to_vec();
        let reckoned = self.bound.reckoned();
        self.set(rules);
        self.spent += A_ROW * (self.bound.reckoned() - reckoned);
        self.work.saturating_sub(self.spent)
    }

    /// Makes the problem that of these rules, and its bound.
    fn set(&mut self, rules: &[Rule]) {
        let pristine = &self.ready.problem;
        let filled = &self.ready.filled;
        let places = std::mem::take(&mut self.changed);
        let mut before = BTreeMap::new();
        for place in places {
            let asked = pristine.asked[place].clone();
            let asked = std::mem::replace(&mut self.problem.asked[place], asked);
            let prices = self.problem.prices[place];
            self.problem.prices[place] = pristine.prices[place];
            before.insert(place, (asked, prices));
        }
        for rule in rules {
            match rule.how {
                How::Paid => {}
                How::At(at) => {
                    for &moment in self.playings.at(rule.written) {
                        let place = filled.place[moment];
                        let asked = &mut self.problem.asked[place];
                        *asked = asked.held(rule.letter, at, BROKEN);
                        self.changed.insert(place);
                    }
                }
                How::Unmoved => {
                    let all = rule.first..=rule.written;
                    for &moment in all.flat_map(|written| self.playings.at(written)) {
                        let here = |place: &usize| filled.origin[*place] == moment;
                        for place in (0..=filled.place[moment]).rev().take_while(here) {
                            self.problem.prices[place][rule.letter] = [STUCK; 2];
                            self.changed.insert(place);
                        }
                    }
                }
            }
        }
        self.reckon(&before);
    }

    /// Reckons the bound again where rules have changed something.
    fn reckon(&mut self, before: &BTreeMap<usize, (Asked, MovePrices)>) {
        let pristine = &self.ready.problem;
        let mut anew = vec![false; self.problem.asked.len()];
        for &place in self.changed.iter().chain(before.keys()) {
            let was = match before.get(&place) {
                Some((asked, prices)) => (asked, prices),
                None => (&pristine.asked[place], &pristine.prices[place]),
            };
            anew[place] = was != (&self.problem.asked[place], &self.problem.prices[place]);
        }
        for place in std::mem::take(&mut self.unreckoned) {
            anew[place] = true;
        }
        self.bound
            .again(&self.problem, &self.ready.wishes.feet, &anew);
    }
}
