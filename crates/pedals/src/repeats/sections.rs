//! Repeated sections, each settled for itself.
//!
//! What marks of a section are held to changes nothing outside it but through what the rest costs
//! from its first moment on. So sections are settled from the last to the first: once nothing that
//! its marks could be held to costs less than the best of them, from no way of standing at its first
//! moment, the others are done with, whatever comes before. The ways of all sections add up and do
//! not multiply.

use std::ops::Range;
use std::rc::Rc;

use super::Branching;
use super::rule::{How, Rule};
use crate::playings::{OnlyThen, Playings};
use crate::solve::A_ROW;
use crate::view::View;

/// Ways tried in a section before it is given up.
const MOST: usize = 2000;
/// Of the work allowed so great a part is spent on one section.
const SHARE: u64 = 16;
/// Where ways still differ at a section's first moment they are compared so many places sooner,
const A_LITTLE: usize = 6;
/// or twice as many, and so on, so many times in all.
const SOONER: usize = 5;

/// What a section's marks may be held to.
struct Leaf {
    rules: Vec<Rule>,
    /// What the whole costs at least.
    least: u64,
    /// Of equal hope the one that is tried first.
    preferred: usize,
    /// What the rest costs at least from the section's first moment on, but for what is paid.
    view: Rc<View>,
    paid: u64,
    /// Whether the view is its own: else it is still that of fewer rules, and may be too low.
    reckoned: bool,
    /// Whether steps were found along which its marks are the same at every pass.
    done: bool,
    /// Whether no steps were found that keep its rules: then nothing can follow from it.
    shut: bool,
}

/// A section that is settled: its best way, and those that are done with.
struct Settled {
    first: usize,
    best: Leaf,
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
    /// Settles section by section, as far as they can be; what no plan costs less than, and the
    /// rules of those that are settled.
    pub(super) fn by_sections(&mut self) -> (u64, Vec<Rule>) {
        let mut settled: Vec<Settled> = Vec::new();
        let mut rules: Vec<Rule> = Vec::new();
        let mut sought = self.glance_under(&rules);
        for section in self.playings.sections().iter().rev() {
            let differ = self.judged(&sought).unwrap_or_default();
            if !differ.iter().any(|only| self.is_in(only, section)) {
                continue;
            }
            let lines = settled.iter().map(|later| later.first);
            let until = lines.min().unwrap_or(usize::MAX);
            if let Some(done) = self.settle(section, &rules, until) {
                rules.extend(&done.best.rules);
                settled.push(done);
            }
            sought = self.glance_under(&rules);
        }
        sought = self.under(&rules, u64::MAX);
        self.judged(&sought);
        let least = self.least_with(&rules);
        // sight may have grown keener since they were settled
        let mut later: Vec<Rule> = Vec::new();
        for mut section in settled {
            if !self.still_holds(&mut section, &rules, &later) {
                return (0, rules);
            }
            later.extend(&section.best.rules);
        }
        // a section that was given up has shown something, too
        (least.max(self.surely), rules)
    }

    fn is_in(&self, only: &OnlyThen, section: &Range<usize>) -> bool {
        section.contains(&self.playings.at(only.written)[0])
    }

    /// The best way for a section, the later ones being held to these rules; its rules must lie
    /// before a place.
    fn settle(&mut self, section: &Range<usize>, later: &[Rule], until: usize) -> Option<Settled> {
        let until_spent = (self.spent + self.work / SHARE).min(self.work / 2);
        let place = &self.ready.filled.place;
        let before = section.start.checked_sub(1);
        let first = before.map_or(0, |before| place[before] + 1);
        let mut leaves = vec![self.root(later, first)];
        for _ in 0..MOST {
            // of equal hope those with more rules, then the one that was preferred
            let order = |leaf: &Leaf| {
                let deep = usize::MAX - leaf.rules.len();
                (leaf.shut, leaf.least, !leaf.done, deep, leaf.preferred)
            };
            let at = (0..leaves.len()).min_by_key(|&at| order(&leaves[at]))?;
            let mut leaf = leaves.swap_remove(at);
            if leaf.done {
                match self.line(&mut leaf, &mut leaves, later, first) {
                    Ok(first) => {
                        return Some(Settled {
                            first,
                            best: leaf,
                            others: leaves,
                        });
                    }
                    Err(other) => {
                        leaves.push(leaf);
                        leaf = leaves.swap_remove(other);
                    }
                }
            }
            if leaf.done || leaf.shut || self.spent > until_spent {
                let least = leaves.iter().map(|leaf| leaf.least).min();
                let least = least.map_or(leaf.least, |least| least.min(leaf.least));
                self.surely = self.surely.max(least);
                return None;
            }
            if !leaf.reckoned {
                self.reckon_leaf(&mut leaf, later, first);
                leaves.push(leaf);
                continue;
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
        let mut lower = None;
        let mut sooner_by = A_LITTLE;
        for _ in 0..SOONER {
            self.reckon_leaf(best, later, line);
            let sooner = line != first;
            let Some(other) = self.lower_somewhere(best, leaves, later, line, sooner) else {
                return Ok(line);
            };
            lower = lower.or(Some(other));
            line = first.saturating_sub(sooner_by).max(1);
            sooner_by *= 2;
        }
        // views are those of the first place again
        for leaf in leaves.iter_mut() {
            self.reckon_leaf(leaf, later, first);
        }
        self.reckon_leaf(best, later, first);
        Err(lower.unwrap_or(0))
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
        let only = differ.as_ref().and_then(|differ| {
            let mut differ_in = differ.iter().filter(|only| self.is_in(only, section));
            differ_in.find(|only| !only.is_settled(&leaf.rules, differ))
        });
        leaf.view = self.view(first);
        let Some(only) = only else {
            leaf.done = differ.is_some();
            leaf.shut = !leaf.done;
            leaves.push(leaf);
            return Some(());
        };
        let mut ways = self.five_ways(only, &leaf.rules);
        ways[1..4].sort_by_key(|rule| rule.how != How::At(only.to));
        let last = self.playings.at(ways[0].written).last()?;
        if self.ready.filled.place[*last] >= until {
            return None;
        }
        for (preferred, rule) in ways.into_iter().enumerate() {
            let rules = [&leaf.rules[..], &[rule]].concat();
            let paid = self.paid(&rules);
            leaves.push(Leaf {
                least: leaf.least.saturating_add(paid - leaf.paid),
                rules,
                preferred,
                view: Rc::clone(&leaf.view),
                paid,
                reckoned: rule.how == How::Paid,
                done: false,
                shut: false,
            });
        }
        Some(())
    }

    /// A leaf without rules of its own.
    fn root(&mut self, later: &[Rule], first: usize) -> Leaf {
        let least = self.least_with(later);
        Leaf {
            rules: Vec::new(),
            least,
            preferred: 0,
            view: self.view(first),
            paid: 0,
            reckoned: true,
            done: false,
            shut: false,
        }
    }

    /// What a leaf costs at least, by the sight of now.
    fn reckon_leaf(&mut self, leaf: &mut Leaf, later: &[Rule], first: usize) {
        let least = self.least_with(&[later, &leaf.rules].concat());
        leaf.least = leaf.least.max(least);
        leaf.view = self.view(first);
        leaf.reckoned = true;
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

    /// What the rest costs at least from a place on.
    fn view(&self, first: usize) -> Rc<View> {
        Rc::new(self.bound.view(first))
    }

    /// A leaf that from some way of standing may cost less than the best. Nothing comes before
    /// the first section: there only the whole matters, and of that the best costs least.
    fn lower_somewhere(
        &mut self,
        best: &Leaf,
        leaves: &mut [Leaf],
        later: &[Rule],
        first: usize,
        anew: bool,
    ) -> Option<usize> {
        if first == 0 {
            return None;
        }
        for (at, leaf) in leaves.iter_mut().enumerate() {
            if anew || !leaf.is_nowhere_below(best) {
                self.reckon_leaf(leaf, later, first);
                if !leaf.is_nowhere_below(best) {
                    return Some(at);
                }
            }
        }
        None
    }

    /// Whether what a section was settled by is true with the sight of now.
    fn still_holds(&mut self, section: &mut Settled, rules: &[Rule], later: &[Rule]) -> bool {
        let first = section.first;
        let least = self.least_with(rules);
        if first == 0 {
            // steps found under the later rules prove nothing for others: only sight does
            return section
                .others
                .iter()
                .all(|leaf| self.least_with(&[later, &leaf.rules].concat()) >= least);
        }
        let view = self.view(first);
        if view == section.best.view {
            return true;
        }
        section.best.view = view;
        let (best, others) = (&section.best, &mut section.others);
        self.lower_somewhere(best, others, later, first, true)
            .is_none()
    }
}

impl Leaf {
    /// Whether from no way of standing it may cost less than another.
    fn is_nowhere_below(&self, other: &Self) -> bool {
        let more = self.paid.wrapping_sub(other.paid) as i64;
        self.view.is_nowhere_below(&other.view, more)
    }
}
