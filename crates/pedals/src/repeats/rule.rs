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
