//! What records say once their corrections are known.

use std::collections::BTreeMap;

use crate::{Correction, Entry, Now, Record, RecordId};

/// The corrections that hold.
#[derive(Default)]
pub(crate) struct Truths {
    /// of each corrected record the correction that holds, and what is true
    now: BTreeMap<RecordId, (RecordId, Now)>,
}

impl Truths {
    /// Of records in the order in which they are replayed. From the last to the first: a correction that a later one corrects
    /// does not hold, and of several of one record the last does.
    pub(crate) fn of<'a>(records: impl DoubleEndedIterator<Item = &'a Record>) -> Truths {
        let mut truths = Truths::default();
        for record in records.rev().filter(|r| r.kind() == "correction") {
            if let Some(Entry::Correction(Correction { of, now, .. })) = truths.entry(record) {
                let held = (record.id().clone(), now);
                truths.now.entry(of).or_insert(held);
            }
        }
        truths
    }

    /// What a record says now; `None` where it is withdrawn, or not known here.
    pub(crate) fn entry(&self, record: &Record) -> Option<Entry> {
        match self.now(record.id()) {
            None => record.entry(),
            Some(Now::Entry(entry)) => Some((**entry).clone()),
            Some(Now::Withdrawn | Now::Unknown(_)) => None,
        }
    }

    /// What is true of a record that was corrected.
    pub(crate) fn now(&self, id: &RecordId) -> Option<&Now> {
        self.now.get(id).map(|(_, now)| now)
    }

    /// The correction of a record that holds.
    pub(crate) fn correction(&self, of: &RecordId) -> Option<&RecordId> {
        self.now.get(of).map(|(correction, _)| correction)
    }

    /// Whether a record was corrected, in whatever way.
    pub(crate) fn has(&self, id: &RecordId) -> bool {
        self.now.contains_key(id)
    }
}
