//! Repeated sections, each settled for itself.
//!
//! What marks of a section are held to changes nothing outside it but through what the rest costs
//! from its first moment on. So sections are settled from the last to the first: once nothing that
//! its marks could be held to costs less than the best of them, from no way of standing at its first
//! moment, the others are done with, whatever comes before. The ways of all sections add up and do
//! not multiply.

use std::ops::Range;

use super::Branching;
use super::rule::{How, Rule};
use crate::playings::{OnlyThen, Playings};
use crate::solve::A_ROW;
use crate::view::View;

/// Ways tried in a section before it is given up.
const MOST: usize = 400;
/// Where ways still differ at a section's first moment, they are compared so many places sooner,
const A_LITTLE: usize = 48;
/// and again, so many times in all.
const SOONER: usize = 3;

/// What a section's marks may be held to.
struct Leaf {
    rules: Vec<Rule>,
    /// What the whole costs at least.
    least: u64,
    /// Of equal hope the one that is tried first.
    preferred: usize,
    /// What the rest costs at least from the section's first moment on.
    view: View,
    /// Whether steps were found along which its marks are the same at every pass.
    done: bool,
}

/// A section that is settled: its best way, and those that are done with.
struct Settled {
    first: usize,
    rules: Vec<Rule>,
    view: View,
    others: Vec<Leaf>,
}

impl Playings {
    /// The sections in which places are played again, as moments: the shortest stretches that
    /// hold all playings of their places.
    fn sections(&self) -> Vec<Range<usize>> {
        let mut sections: Vec<Range<usize>> = Vec::new();
        for moments in self.all().filter(|moments| moments.len() > 1) {
            let (first, last) = (moments[0], moments[moments.len() - 1]);
            // places come in the order of their first playing
            match sections.last_mut() {
                Some(section) if first < section.end => section.end = section.end.max(last + 1),
                _ => sections.push(first..last + 1),
            }
        }
        sections
    }
}

impl Branching<'_> {
    /// Settles section by section; what no plan costs less than, or `None` where a section could
    /// not be settled.
    pub(super) fn by_sections(&mut self) -> Option<u64> {
        let sections = self.playings.sections();
        let mut settled: Vec<Settled> = Vec::new();
        let mut rules: Vec<Rule> = Vec::new();
        let mut sought = self.glance_under(&rules);
        for section in sections.iter().rev() {
            let differ = self.judged(&sought)?;
            if !differ.iter().any(|only| self.is_in(only, section)) {
                continue;
            }
            let until = settled.last().map_or(usize::MAX, |later| later.first);
            let done = self.settle(section, &rules, until)?;
            rules.extend(&done.rules);
            settled.push(done);
            sought = self.glance_under(&rules);
        }
        sought = self.under(&rules, u64::MAX);
        self.judged(&sought)?;
        let least = self.least_with(&rules);
        // sight may have grown keener since they were settled
        let mut later: Vec<Rule> = Vec::new();
        for section in settled {
            if !self.still_holds(&section, &rules, &later) {
                return None;
            }
            later.extend(&section.rules);
        }
        Some(least)
    }

    fn is_in(&self, only: &OnlyThen, section: &Range<usize>) -> bool {
        section.contains(&self.playings.at(only.written)[0])
    }

    /// The best way for a section, the later ones being held to these rules; its rules must lie
    /// before a place.
    fn settle(&mut self, section: &Range<usize>, later: &[Rule], until: usize) -> Option<Settled> {
        let place = &self.ready.filled.place;
        let before = section.start.checked_sub(1);
        let first = before.map_or(0, |before| place[before] + 1);
        let mut leaves = vec![self.leaf(later, Vec::new(), 0, first)];
        for _ in 0..MOST {
            // of equal hope those with more rules, then the one that was preferred
            let order = |leaf: &Leaf| {
                let deep = usize::MAX - leaf.rules.len();
                (leaf.least, !leaf.done, deep, leaf.preferred)
            };
            let at = (0..leaves.len()).min_by_key(|&at| order(&leaves[at]))?;
            let mut leaf = leaves.swap_remove(at);
            if leaf.done {
                match self.line(&mut leaf, &mut leaves, later, first) {
                    Ok(first) => {
                        return Some(Settled {
                            first,
                            rules: leaf.rules,
                            view: leaf.view,
                            others: leaves,
                        });
                    }
                    Err(other) => {
                        leaves.push(leaf);
                        leaf = leaves.swap_remove(other);
                    }
                }
            }
            if leaf.done || self.spent > self.work / 2 {
                return None;
            }
            self.followed(leaf, section, (later, first, until), &mut leaves)?;
        }
        None
    }

    /// The place from which on no other leaf costs less than the best, whatever came before: the
    /// section's first, or one a little sooner. Else a leaf that may cost less.
    fn line(
        &mut self,
        best: &mut Leaf,
        leaves: &mut [Leaf],
        later: &[Rule],
        first: usize,
    ) -> Result<usize, usize> {
        let mut line = first;
        for _ in 0..SOONER {
            self.least_with(&[later, &best.rules].concat());
            best.view = self.view(&best.rules, line);
            let Some(other) = self.lower_somewhere(best, leaves, later, line) else {
                return Ok(line);
            };
            if line <= A_LITTLE {
                return Err(other);
            }
            line -= A_LITTLE;
            for leaf in leaves.iter_mut() {
                self.least_with(&[later, &leaf.rules].concat());
                leaf.view = self.view(&leaf.rules, line);
            }
        }
        for leaf in leaves.iter_mut() {
            self.least_with(&[later, &leaf.rules].concat());
            leaf.view = self.view(&leaf.rules, first);
        }
        self.least_with(&[later, &best.rules].concat());
        best.view = self.view(&best.rules, first);
        self.lower_somewhere(best, leaves, later, first)
            .map_or(Ok(first), Err)
    }

    /// Seeks steps for a leaf: it is done if its marks are the same at every pass, else five leaves
    /// come of it. `None` where a mark lies too late.
    fn followed(
        &mut self,
        mut leaf: Leaf,
        section: &Range<usize>,
        (later, first, until): (&[Rule], usize, usize),
        leaves: &mut Vec<Leaf>,
    ) -> Option<()> {
        let rules = [later, &leaf.rules].concat();
        let sought = self.glance_under(&rules);
        let paid = self.paid(&rules);
        leaf.least = leaf.least.max(sought.least.saturating_add(paid));
        let differ = self.judged(&sought);
        let open = |only: &&OnlyThen| self.is_in(only, section) && !only.is_ruled(&leaf.rules);
        let only = differ.as_ref().and_then(|differ| differ.iter().find(open));
        let Some(only) = only else {
            leaf.view = self.view(&leaf.rules, first);
            leaf.done = differ.is_some();
            if !leaf.done {
                // nothing keeps these rules
                leaf.least = u64::MAX;
            }
            leaves.push(leaf);
            return Some(());
        };
        let last = self.playings.at(only.written).last()?;
        if self.ready.filled.place[*last] >= until {
            return None;
        }
        let mut at: Vec<How> = (0..3).map(How::At).collect();
        at.sort_by_key(|&how| how != How::At(only.to));
        let ways = [How::Unmoved].into_iter().chain(at).chain([How::Paid]);
        for (preferred, how) in ways.enumerate() {
            let rules = [&leaf.rules[..], &[Rule::of(only, how)]].concat();
            leaves.push(self.leaf(later, rules, preferred, first));
        }
        Some(())
    }

    /// A leaf with rules of its own, as far as sight tells.
    fn leaf(&mut self, later: &[Rule], rules: Vec<Rule>, preferred: usize, first: usize) -> Leaf {
        let least = self.least_with(&[later, &rules].concat());
        Leaf {
            view: self.view(&rules, first),
            least,
            rules,
            preferred,
            done: false,
        }
    }

    /// What the whole costs at least under these rules, as far as sight tells.
    fn least_with(&mut self, rules: &[Rule]) -> u64 {
        let reckoned = self.bound.reckoned();
        self.set(rules);
        self.spent += A_ROW * (self.bound.reckoned() - reckoned);
        self.bound
            .least(&self.problem)
            .saturating_add(self.paid(rules))
    }

    /// What the rest costs at least from a place on, what a section pays for its marks with it.
    fn view(&self, rules: &[Rule], first: usize) -> View {
        self.bound.view(first, self.paid(rules))
    }

    /// A leaf that from some way of standing may cost less than the best. Nothing comes before
    /// the first section: there only the whole matters, and of that the best costs least.
    fn lower_somewhere(
        &mut self,
        best: &Leaf,
        leaves: &mut [Leaf],
        later: &[Rule],
        first: usize,
    ) -> Option<usize> {
        if first == 0 {
            return None;
        }
        for (at, leaf) in leaves.iter_mut().enumerate() {
            if leaf.view.is_nowhere_below(&best.view) {
                continue;
            }
            // sight may have grown keener since
            self.least_with(&[later, &leaf.rules].concat());
            leaf.view = self.view(&leaf.rules, first);
            if !leaf.view.is_nowhere_below(&best.view) {
                return Some(at);
            }
        }
        None
    }

    /// Whether what a section was settled by is true with the sight of now.
    fn still_holds(&mut self, section: &Settled, rules: &[Rule], later: &[Rule]) -> bool {
        let first = section.first;
        let least = self.least_with(rules);
        let now = self.view(&section.rules, first);
        if first == 0 {
            return section.others.iter().all(|leaf| leaf.least >= least);
        }
        now == section.view
            || section.others.iter().all(|leaf| {
                self.least_with(&[later, &leaf.rules].concat());
                let view = self.view(&leaf.rules, first);
                view.is_nowhere_below(&now)
            })
    }
}
