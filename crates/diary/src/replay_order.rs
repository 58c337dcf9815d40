//! The order in which records are replayed.

use std::collections::BTreeMap;

use crate::{At, Device, Diary, Record};

impl Diary {
    /// All records, in the order in which they are replayed: within a device by place, across devices by time.
    ///
    /// A clock that was put back does not turn a device's own order round: a record counts as no earlier than those that
    /// its device wrote before it. Of the same moment, the device whose name comes first comes first. The order depends on
    /// the records only, not on how they came here.
    pub fn in_order(&self) -> Vec<&Record> {
        let mut latest: BTreeMap<&Device, &At> = BTreeMap::new();
        let mut timed: Vec<(&At, &Record)> = Vec::new();
        for record in self.records() {
            let at = latest.entry(&record.id().device).or_insert(record.at());
            *at = (*at).max(record.at());
            timed.push((*at, record));
        }
        timed.sort_by(|(a, one), (b, other)| a.cmp(b).then_with(|| one.id().cmp(other.id())));
        timed.into_iter().map(|(_, record)| record).collect()
    }
}
