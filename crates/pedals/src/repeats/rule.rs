//! What marks are held to, and the branches of the tree in which that is tried.

use std::collections::BTreeSet;

use crate::playings::OnlyThen;

/// What a written place, or a stretch of them, must keep to, for a letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rule {
    /// The first place and the last; for a place alone they are the same.
    pub(super) first: usize,
    pub(super) written: usize,
    pub(super) letter: usize,
    pub(super) how: How,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum How {
    /// Marks that differ are paid for; in a stretch at least one.
    Paid,
    /// No mark, in all of the stretch.
    Unmoved,
    /// At this place at every pass, at the end of the stretch.
    At(u8),
}

/// Rules to be kept, and what a plan that keeps them costs at least.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Branch {
    /// The heap gives the greatest first: this is the cost taken from the highest.
    pub(super) hope: u64,
    /// Of equal hope the one with more rules, then the one that was preferred.
    pub(super) rules_kept: usize,
    pub(super) preferred: u8,
    pub(super) rules: Vec<Rule>,
}

impl OnlyThen {
    /// Whether its place and letter have a rule already.
    pub(super) fn is_ruled(&self, rules: &[Rule]) -> bool {
        let mut rules = rules.iter().filter(|rule| rule.is_of_one_place());
        rules.any(|rule| rule.holds_for(self))
    }

    /// Whether it has such a rule, or is the one mark that its stretch pays for.
    pub(super) fn is_settled(&self, rules: &[Rule], differ: &BTreeSet<Self>) -> bool {
        let alone = |rule: &Rule| differ.iter().filter(|only| rule.holds_for(only)).count() == 1;
        let mut paid = rules.iter().filter(|rule| rule.how == How::Paid);
        self.is_ruled(rules) || paid.any(|rule| rule.holds_for(self) && alone(rule))
    }
}

impl Rule {
    pub(super) fn of(only: &OnlyThen, how: How) -> Self {
        Self {
            first: only.written,
            written: only.written,
            letter: only.letter,
            how,
        }
    }

    pub(super) fn is_of_one_place(&self) -> bool {
        self.first == self.written
    }

    /// Whether a mark lies where it holds.
    pub(super) fn holds_for(&self, only: &OnlyThen) -> bool {
        self.letter == only.letter && (self.first..=self.written).contains(&only.written)
    }
}

/// How many marks that differ these rules pay for at least.
pub(super) fn marks_paid(rules: &[Rule]) -> usize {
    let paid = |rule: &&Rule| rule.how == How::Paid;
    let within = |stretch: &Rule, rule: &Rule| {
        rule != stretch
            && rule.letter == stretch.letter
            && stretch.first <= rule.first
            && rule.written <= stretch.written
    };
    let counts = |stretch: &&Rule| {
        let mut others = rules.iter().filter(paid);
        !others.any(|rule| within(stretch, rule))
    };
    rules.iter().filter(paid).filter(counts).count()
}

impl Branch {
    pub(super) fn of(least: u64, preferred: u8, rules: Vec<Rule>) -> Self {
        Self {
            hope: u64::MAX - least,
            rules_kept: rules.len(),
            preferred,
            rules,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rule((first, written): (usize, usize), how: How) -> Rule {
        Rule {
            first,
            written,
            letter: 0,
            how,
        }
    }

    #[test]
    fn a_stretch_pays_for_one_mark_if_no_place_in_it_does() {
        let stretch = rule((3, 6), How::Paid);
        assert_eq!(marks_paid(&[stretch]), 1);
        let places = [4, 5].map(|at| rule((at, at), How::Paid));
        assert_eq!(marks_paid(&[stretch, places[0]]), 1);
        assert_eq!(marks_paid(&[stretch, places[0], places[1]]), 2);
        let outside = rule((7, 7), How::Paid);
        assert_eq!(marks_paid(&[stretch, outside]), 2);
        assert_eq!(marks_paid(&[rule((3, 6), How::Unmoved)]), 0);
    }

    #[test]
    fn one_mark_in_a_stretch_that_is_paid_for_is_settled_and_two_are_not() {
        let mark = |written| OnlyThen {
            written,
            letter: 0,
            to: 1,
        };
        let paid = [rule((3, 6), How::Paid)];
        let one = BTreeSet::from([mark(4), mark(8)]);
        assert!(mark(4).is_settled(&paid, &one) && !mark(8).is_settled(&paid, &one));
        let two = BTreeSet::from([mark(4), mark(5)]);
        assert!(!mark(4).is_settled(&paid, &two));
        assert!(mark(4).is_settled(&[paid[0], rule((4, 4), How::Paid)], &two));
    }
}
