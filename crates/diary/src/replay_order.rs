//! The order in which records are replayed.

use std::collections::BTreeMap;

use crate::clocks::Clocks;
use crate::{Device, Diary, Moment, Record};

impl Diary {
    /// All records, in the order in which they are replayed: within a device by place, across devices by time.
    ///
    /// A device's time is corrected by what others saw of its clock when they met. A clock that was put back does not turn
    /// a device's own order round: a record counts as no earlier than those that its device wrote before it. Of the same
    /// moment, the device whose name comes first comes first. The order depends on the records only, not on how they came
    /// here.
    pub fn in_order(&self) -> Vec<&Record> {
        let timed = self.timed();
        timed.into_iter().map(|(_, record)| record).collect()
    }

    /// The same, each record with the moment at which it counts.
    pub(crate) fn timed(&self) -> Vec<(Moment, &Record)> {
        let clocks = Clocks::of(self.records());
        let mut latest: BTreeMap<&Device, Moment> = BTreeMap::new();
        let mut timed: Vec<(Moment, &Record)> = Vec::new();
        for record in self.records() {
            let own = clocks.moment(record);
            let at = latest.entry(&record.id().device).or_insert(own);
            *at = (*at).max(own);
            timed.push((*at, record));
        }
        timed.sort_by(|(a, one), (b, other)| a.cmp(b).then_with(|| one.id().cmp(other.id())));
        timed
    }
}
