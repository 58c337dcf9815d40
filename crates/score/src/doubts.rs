//! Gathering doubts: enough to tell, never more than can be read.

use std::collections::BTreeMap;

use crate::{Diagnostic, Doubt, Measure};

/// The most that are listed; the rest is counted.
const MOST: usize = 500;

/// Doubts as they come up.
#[derive(Debug, Default)]
pub(crate) struct Doubts {
    listed: Vec<(Option<usize>, Doubt)>,
    /// Places in the list, by measure.
    by_measure: BTreeMap<Option<usize>, Vec<usize>>,
    more: usize,
}

impl Doubts {
    /// A doubt about one measure (its index) or about the whole.
    pub(crate) fn add(&mut self, measure: impl Into<Option<usize>>, doubt: Doubt) {
        if self.listed.len() >= MOST {
            self.more += 1;
            return;
        }
        let measure = measure.into();
        let places = self.by_measure.entry(measure).or_default();
        if !places.iter().any(|&place| self.listed[place].1 == doubt) {
            places.push(self.listed.len());
            self.listed.push((measure, doubt));
        }
    }

    /// All of them with their printed numbers: those about the whole first, then by measure.
    pub(crate) fn told(mut self, measures: &[Measure]) -> Vec<Diagnostic> {
        self.listed.sort_by_key(|(measure, _)| *measure);
        if self.more > 0 {
            self.listed.push((None, Doubt::More { more: self.more }));
        }
        let told = self.listed.into_iter().map(|(measure, doubt)| Diagnostic {
            measure,
            number: measure
                .and_then(|index| measures.get(index))
                .map(|measure| measure.number.clone()),
            doubt,
        });
        told.collect()
    }
}
