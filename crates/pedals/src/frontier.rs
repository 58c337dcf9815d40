//! The ways of standing at one moment that are worth keeping: none that another betters in cost
//! and in both feet.

use crate::code::{Code, SETTINGS};

/// One way of having come to a moment.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Label {
    /// What it cost so far.
    pub(crate) cost: u64,
    /// What the whole will cost at least.
    pub(crate) least: u64,
    /// The moment at which each foot last moved, or [`NEVER`] if that no longer matters.
    pub(crate) home: [i32; 2],
    /// The last step taken, by its place in the record of steps.
    pub(crate) step: u32,
    pub(crate) code: Code,
}

/// So long ago that the foot is free.
pub(crate) const NEVER: i32 = -1;

const NONE: u32 = u32::MAX;

/// Labels at one moment, none bettered by another.
pub(crate) struct Frontier {
    labels: Vec<Label>,
    next: Vec<u32>,
    alive: Vec<bool>,
    heads: Vec<u32>,
}

impl Frontier {
    pub(crate) fn new() -> Self {
        Self {
            labels: Vec::new(),
            next: Vec::new(),
            alive: Vec::new(),
            heads: vec![NONE; SETTINGS],
        }
    }

    pub(crate) fn clear(&mut self) {
        for label in &self.labels {
            self.heads[usize::from(label.code)] = NONE;
        }
        self.labels.clear();
        self.next.clear();
        self.alive.clear();
    }

    pub(crate) fn len(&self) -> usize {
        self.labels.len()
    }

    /// The label at a place, unless a later one bettered it.
    pub(crate) fn get(&self, place: usize) -> Option<Label> {
        self.alive[place].then(|| self.labels[place])
    }

    /// Whether a label would be kept.
    pub(crate) fn wants(&self, label: &Label) -> bool {
        let mut place = self.heads[usize::from(label.code)];
        while place != NONE {
            let index = place as usize;
            if self.alive[index] && betters(&self.labels[index], label) {
                return false;
            }
            place = self.next[index];
        }
        true
    }

    /// Adds a label that is wanted; those that it betters are gone.
    pub(crate) fn add(&mut self, label: Label) {
        let head = &mut self.heads[usize::from(label.code)];
        let mut place = *head;
        while place != NONE {
            let index = place as usize;
            if betters(&label, &self.labels[index]) {
                self.alive[index] = false;
            }
            place = self.next[index];
        }
        self.next.push(*head);
        *head = self.labels.len() as u32;
        self.labels.push(label);
        self.alive.push(true);
    }

    pub(crate) fn kept(&self) -> impl Iterator<Item = Label> + '_ {
        let all = self.labels.iter().zip(&self.alive);
        all.filter(|&(_, &alive)| alive).map(|(&label, _)| label)
    }
}

fn betters(one: &Label, other: &Label) -> bool {
    one.cost <= other.cost && one.home[0] <= other.home[0] && one.home[1] <= other.home[1]
}
