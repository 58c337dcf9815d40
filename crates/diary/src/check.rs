//! Whether anything is missing: places that no record here has, places that two records claim, clocks that cannot be right.

use std::collections::BTreeMap;

use crate::{At, Device, Diary, Gap, Moment, Record, RecordId};

/// Seconds by which two clocks may differ without a word.
const NO_MATTER_S: f64 = 300.0;

/// What a diary holds, and what is not as it should be.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Checked {
    /// Each device with the number of its records.
    pub devices: Vec<(Device, usize)>,
    /// Places of a device that must have been written and are not here.
    pub gaps: Vec<Gap>,
    /// Places that another record claims too, which is kept apart.
    pub twins: Vec<RecordId>,
    /// Records of a kind or version that is not known here: kept and passed on.
    pub not_understood: Vec<RecordId>,
    /// Clocks that were wrong, as far as the records show it.
    pub clocks: Vec<ClockSeen>,
}

/// A clock that was wrong.
#[derive(Clone, Debug, PartialEq)]
pub enum ClockSeen {
    /// A device wrote this record later than the one before, and by its clock earlier.
    PutBack {
        /// The record.
        record: RecordId,
        /// By how many seconds.
        by_s: f64,
    },
    /// A device's clock is ahead of this one's: its last record is not yet.
    Ahead {
        /// The device's last record.
        record: RecordId,
        /// By how many seconds at least.
        by_s: f64,
    },
}

impl Checked {
    /// Whether every record that was ever written here, as far as can be known, is here and replayed.
    pub fn is_whole(&self) -> bool {
        self.gaps.is_empty() && self.twins.is_empty()
    }
}

/// Devices whose clock is ahead of this one's by these records of theirs, each by its last. `now`: the time by this device's
/// clock.
pub fn clocks_ahead<'a>(records: impl IntoIterator<Item = &'a Record>, now: &At) -> Vec<ClockSeen> {
    let mut last: BTreeMap<&Device, &Record> = BTreeMap::new();
    for record in records {
        let known = last.entry(&record.id().device).or_insert(record);
        if record.id() > known.id() {
            *known = record;
        }
    }
    let ahead = last.into_values().filter_map(|record| {
        let by_s = Moment::of(record.at()).since_s(Moment::of(now));
        let record = record.id().clone();
        (by_s > NO_MATTER_S).then_some(ClockSeen::Ahead { record, by_s })
    });
    ahead.collect()
}

impl Diary {
    /// Looks through all records. `now`: the time by this device's clock.
    pub fn check(&self, now: &At) -> Checked {
        let mut devices: BTreeMap<&Device, usize> = BTreeMap::new();
        for record in self.records() {
            *devices.entry(&record.id().device).or_default() += 1;
        }
        let devices = devices.into_iter().map(|(d, count)| (d.clone(), count));
        let unknown = self
            .records()
            .chain(self.apart())
            .filter(|r| r.is_unknown());
        Checked {
            devices: devices.collect(),
            gaps: self.gaps(),
            twins: self.apart().map(|record| record.id().clone()).collect(),
            not_understood: unknown.map(|record| record.id().clone()).collect(),
            clocks: self.clocks_seen(Moment::of(now)),
        }
    }

    fn clocks_seen(&self, now: Moment) -> Vec<ClockSeen> {
        let mut seen = Vec::new();
        let mut last: BTreeMap<&Device, (Moment, &RecordId)> = BTreeMap::new();
        for record in self.records() {
            let (at, id) = (Moment::of(record.at()), record.id());
            let before = last.insert(&id.device, (at, id));
            let by_s = before.map_or(0.0, |(before, _)| before.since_s(at));
            if by_s > NO_MATTER_S {
                seen.push(ClockSeen::PutBack {
                    record: id.clone(),
                    by_s,
                });
            }
        }
        for (at, id) in last.into_values() {
            let by_s = at.since_s(now);
            if by_s > NO_MATTER_S {
                seen.push(ClockSeen::Ahead {
                    record: id.clone(),
                    by_s,
                });
            }
        }
        seen
    }
}
