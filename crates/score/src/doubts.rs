//! Gathering doubts: enough to tell, never more than can be read.

use crate::{Diagnostic, Doubt, Measure};

/// The most that are listed; the rest is counted.
const MOST: usize = 500;

/// Doubts as they come up.
#[derive(Debug, Default)]
pub(crate) struct Doubts {
    listed: Vec<(Option<usize>, Doubt)>,
    more: usize,
}

impl Doubts {
    /// A doubt about one measure (its index) or about the whole.
    pub(crate) fn add(&mut self, measure: impl Into<Option<usize>>, doubt: Doubt) {
        let entry = (measure.into(), doubt);
        if self.listed.len() >= MOST {
            self.more += 1;
        } else if !self.listed.contains(&entry) {
            self.listed.push(entry);
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
