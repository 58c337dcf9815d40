//! What marks are held to, and the branches of the tree in which that is tried.

use crate::playings::OnlyThen;

/// What a written place must keep to, for a letter.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Rule {
    pub(super) written: usize,
    pub(super) letter: usize,
    pub(super) how: How,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum How {
    /// Marks that differ are paid for.
    Paid,
    /// No mark.
    Unmoved,
    /// At this place at every pass.
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
        let mut rules = rules.iter();
        rules.any(|rule| (rule.written, rule.letter) == (self.written, self.letter))
    }
}

impl Rule {
    pub(super) fn of(only: &OnlyThen, how: How) -> Self {
        Self {
            written: only.written,
            letter: only.letter,
            how,
        }
    }
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
