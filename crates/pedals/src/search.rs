//! The search itself: from the first moment to the last through all ways of standing that can
//! still lead to the best plan.
//!
//! Pedals move at moments, so a way of standing is a setting, a cost and the moment at which each
//! foot last moved: times stay exact and need no grid. A move that could have been made one moment
//! sooner at no higher price is not tried: to be home earlier never harms.

use crate::Feet;
use crate::bound::Bound;
use crate::code::{Code, SETTINGS, places_of, with};
use crate::feet::{Foot, Reach};
use crate::frontier::{Frontier, Label, NEVER};
use crate::prices::STUCK;
use crate::problem::{Problem, ages, step_price};

/// How widely one search looks.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Width {
    /// How much worse than the best at a moment a way may look.
    pub(crate) slack: u64,
    /// How many ways are kept at a moment.
    pub(crate) ways: usize,
    /// Only plans that cost less are looked for.
    pub(crate) below: u64,
    /// Steps after which it ends.
    pub(crate) work: u64,
}

/// A foot's movement, or the opening.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Step {
    pub(crate) before: u32,
    pub(crate) moment: u32,
    pub(crate) code: Code,
    pub(crate) foot: Foot,
}

/// What one search found.
pub(crate) struct Found {
    /// The cheapest plan's cost and its steps, the opening first.
    pub(crate) best: Option<(u64, Vec<Step>)>,
    /// No plan that was not seen costs less than this.
    pub(crate) unseen: u64,
    pub(crate) work: u64,
}

pub(crate) const NO_STEP: u32 = u32::MAX;

/// One search with feet that may be faster than wished; the answer is the best of all if nothing unseen could cost less.
pub(crate) fn search(problem: &Problem<'_>, feet: Feet, bound: &Bound, width: Width) -> Found {
    let mut run = Run::new(problem, feet, bound, width);
    let mut labels = run.openings();
    for moment in 1..problem.at_us.len() {
        if run.work > width.work {
            let least = labels.iter().map(|label| label.least).min();
            run.unseen = run.unseen.min(least.unwrap_or(u64::MAX));
            labels.clear();
        }
        run.before(moment, &labels);
        labels = run.arrive(moment);
    }
    let best = cheapest(&labels);
    Found {
        best: best.map(|(cost, at)| (cost, traced(&run.steps, labels[at].step))),
        unseen: run.unseen,
        work: run.work,
    }
}

/// The cost of the cheapest way of standing, and its place among them.
pub(crate) fn cheapest(labels: &[Label]) -> Option<(u64, usize)> {
    let all = labels.iter().enumerate();
    let best = all.min_by_key(|(_, label)| (label.cost, label.code, label.home));
    best.map(|(at, label)| (label.cost, at))
}

impl Step {
    /// A way of standing from which steps begin.
    pub(crate) fn root(label: &Label) -> Self {
        Self {
            before: NO_STEP,
            moment: 0,
            code: label.code,
            foot: Foot::Left,
        }
    }
}

pub(crate) struct Run<'a> {
    problem: &'a Problem<'a>,
    feet: Feet,
    bound: &'a Bound,
    width: Width,
    reaches: [Vec<Reach>; 2],
    pub(crate) steps: Vec<Step>,
    frontier: Frontier,
    pub(crate) unseen: u64,
    pub(crate) work: u64,
}

impl<'a> Run<'a> {
    pub(crate) fn new(
        problem: &'a Problem<'a>,
        feet: Feet,
        bound: &'a Bound,
        width: Width,
    ) -> Self {
        Self {
            problem,
            feet,
            bound,
            width,
            reaches: Foot::BOTH.map(|foot| feet.reaches(foot)),
            steps: Vec::new(),
            frontier: Frontier::new(),
            unseen: u64::MAX,
            work: 0,
        }
    }

    /// Every setting in which the piece may begin.
    pub(crate) fn openings(&mut self) -> Vec<Label> {
        let Some(first) = self.problem.asked.first() else {
            return Vec::new();
        };
        let allowed = |code: &Code| {
            let mut stuck = self.problem.wishes.broken.stuck.iter();
            stuck.all(|&(letter, at)| places_of(*code)[letter.index()] == crate::code::place(at))
        };
        let labels = (0..SETTINGS as Code).filter(allowed).map(|code| {
            let cost = first.price(code);
            Label {
                cost,
                least: cost + self.bound.from(1, code, [usize::MAX; 2]),
                home: [NEVER; 2],
                step: u32::from(code),
                code,
            }
        });
        let labels: Vec<Label> = labels.collect();
        // the first steps are the openings, each at its own number
        self.steps.extend((0..SETTINGS as Code).map(|code| Step {
            before: NO_STEP,
            moment: 0,
            code,
            foot: Foot::Left,
        }));
        self.narrow(labels)
    }

    /// What the feet may do after the moment before, for this one: first the left, then the right,
    /// as they do not hinder each other.
    pub(crate) fn before(&mut self, moment: usize, labels: &[Label]) {
        self.frontier.clear();
        let floor = labels.iter().map(|label| label.least).min().unwrap_or(0);
        for label in labels {
            if self.frontier.wants(label) {
                self.frontier.add(*label);
            }
        }
        for foot in Foot::BOTH {
            let mut place = 0;
            while place < self.frontier.len() {
                if let Some(label) = self.frontier.get(place) {
                    for reach in 0..self.reaches[foot as usize].len() {
                        self.reach(moment, &label, foot, reach, floor);
                    }
                }
                place += 1;
            }
        }
        self.work += self.frontier.len() as u64;
    }

    /// Tries one movement of a foot to every place.
    fn reach(&mut self, moment: usize, label: &Label, foot: Foot, reach: usize, floor: u64) {
        let reach = self.reaches[foot as usize][reach];
        let places = places_of(label.code);
        for place in (0..3).filter(|&place| place != places[reach.first]) {
            let code = with(label.code, reach.first, place);
            let Some(second) = reach.second else {
                self.step(moment, label, foot, reach, code, floor);
                continue;
            };
            for place in (0..3).filter(|&place| place != places[second]) {
                self.step(moment, label, foot, reach, with(code, second, place), floor);
            }
        }
    }

    fn step(
        &mut self,
        moment: usize,
        label: &Label,
        foot: Foot,
        reach: Reach,
        code: Code,
        floor: u64,
    ) {
        self.work += 1;
        let problem = self.problem;
        let (price, notches) = step_price(problem, moment, label.code, code, foot);
        let home = label.home[foot as usize];
        let free = |at: usize| problem.is_free(home, at, self.feet.least_us(notches));
        if price >= STUCK as u64
            || !free(moment)
            || self.could_be_sooner(moment, label.code, code, reach, free(moment - 1))
        {
            return;
        }
        let cost = label.cost + price;
        let mut home = label.home;
        home[foot as usize] = moment as i32;
        let least = cost + self.bound.from(moment, code, ages(home, moment));
        if least >= self.width.below {
            return;
        }
        if least > floor.saturating_add(self.width.slack) {
            self.unseen = self.unseen.min(least);
            return;
        }
        let new = Label {
            cost,
            least,
            home,
            step: self.steps.len() as u32,
            code,
        };
        if self.frontier.wants(&new) {
            self.frontier.add(new);
            self.steps.push(Step {
                before: label.step,
                moment: moment as u32,
                code,
                foot,
            });
        }
    }

    /// Whether the movement could have been made for the moment before, by the same foot, at no
    /// higher price and without changing what that moment asked.
    fn could_be_sooner(
        &self,
        moment: usize,
        from: Code,
        to: Code,
        reach: Reach,
        free: bool,
    ) -> bool {
        let problem = self.problem;
        let letter = reach.first;
        if reach.second.is_some() || problem.asked[moment - 1].uses(letter) {
            return false;
        }
        if moment == 1 {
            // the opening could have had it: one that is given counts as asked for
            return true;
        }
        let notches = places_of(from)[letter].abs_diff(places_of(to)[letter]);
        let price = |moment: usize| problem.prices[moment][letter][usize::from(notches.max(1) - 1)];
        free && price(moment - 1) <= price(moment)
    }

    /// The notes of the moment, and only those ways that can still matter.
    pub(crate) fn arrive(&mut self, moment: usize) -> Vec<Label> {
        let problem = self.problem;
        let mut labels: Vec<Label> = Vec::with_capacity(self.frontier.len());
        for mut label in self.frontier.kept() {
            label.cost += problem.asked[moment].price(label.code);
            let free = |home| problem.is_free(home, moment, self.feet.least_us(2));
            label.home = label.home.map(|home| if free(home) { NEVER } else { home });
            let ages = ages(label.home, moment + 1);
            label.least = label.cost + self.bound.from(moment + 1, label.code, ages);
            if label.least < self.width.below {
                labels.push(label);
            }
        }
        self.narrow(labels)
    }

    /// Keeps within the width, and remembers what the best of the others might have cost.
    fn narrow(&mut self, mut labels: Vec<Label>) -> Vec<Label> {
        let floor = labels.iter().map(|label| label.least).min().unwrap_or(0);
        let ceiling = floor.saturating_add(self.width.slack);
        labels.retain(|label| {
            if label.least > ceiling {
                self.unseen = self.unseen.min(label.least);
            }
            label.least <= ceiling
        });
        if labels.len() > self.width.ways {
            let order = |label: &Label| (label.least, label.cost, label.code, label.home);
            labels.select_nth_unstable_by_key(self.width.ways, order);
            let rest = labels[self.width.ways..].iter().map(|label| label.least);
            self.unseen = self.unseen.min(rest.min().unwrap_or(u64::MAX));
            labels.truncate(self.width.ways);
        }
        labels
    }
}

/// The steps that led to one, the first at the front.
pub(crate) fn traced(steps: &[Step], last: u32) -> Vec<Step> {
    let mut path = Vec::new();
    let mut at = last;
    while let Some(step) = steps.get(at as usize) {
        path.push(*step);
        at = step.before;
    }
    path.reverse();
    path
}
