//! What records say once their corrections are known.

use std::collections::BTreeMap;

use crate::{Correction, Entry, Now, Record, RecordId};

/// The corrections that hold.
#[derive(Default)]
pub(crate) struct Truths {
    now: BTreeMap<RecordId, Now>,
}

impl Truths {
    /// Of records in the order in which they are replayed. From the last to the first: a correction that a later one corrects
    /// does not hold, and of several of one record the last does.
    pub(crate) fn of<'a>(records: impl DoubleEndedIterator<Item = &'a Record>) -> Truths {
        let mut truths = Truths::default();
        for record in records.rev().filter(|r| r.kind() == "correction") {
            if let Some(Entry::Correction(Correction { of, now, .. })) = truths.entry(record) {
                truths.now.entry(of).or_insert(now);
            }
        }
        truths
    }

    /// What a record says now; `None` where it is withdrawn, or not known here.
    pub(crate) fn entry(&self, record: &Record) -> Option<Entry> {
        match self.now.get(record.id()) {
            None => record.entry(),
            Some(Now::Entry(entry)) => Some((**entry).clone()),
            Some(Now::Withdrawn | Now::Unknown(_)) => None,
        }
    }

    /// Whether a record was corrected, in whatever way.
    pub(crate) fn has(&self, id: &RecordId) -> bool {
        self.now.contains_key(id)
    }
}
