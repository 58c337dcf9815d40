//! The diary: a set of records. It grows, and nothing in it changes.

use std::collections::BTreeMap;

use crate::truths::Truths;
use crate::{At, Device, DeviceError, Entry, HIGHEST_SEQ, HarpKept, ReadError, Record, RecordId};

/// A set of records, of any devices, each once.
///
/// Two diaries are merged by adding the records of one to the other. A record whose device and place are taken by a record
/// that says something else is kept apart: it is named and passed on, and never replayed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Diary {
    kept: BTreeMap<RecordId, Record>,
    apart: BTreeMap<RecordId, Vec<Record>>,
}

/// What became of records that were offered.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Merged {
    /// Records that are new here, in the order in which they were offered.
    pub taken: Vec<RecordId>,
    /// How many were here already, among them those that are kept apart.
    pub known: usize,
    /// Places that another record has too, which says something else: one of the two is kept apart from now on.
    pub conflicts: Vec<RecordId>,
}

/// Places of a device that no record here has.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Gap {
    /// The device.
    pub device: Device,
    /// The first place.
    pub from: u64,
    /// The last place.
    pub to: u64,
}

/// Why nothing was written.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum AppendError {
    /// The device has no proper name.
    #[error(transparent)]
    Device(#[from] DeviceError),
    /// The device has written its last place.
    #[error("{device} has written all the records that it can: give it a new name")]
    Full {
        /// The device.
        device: Device,
    },
    /// The line could not be read back.
    #[error("this cannot be kept: {0}")]
    Unreadable(#[from] ReadError),
    /// The line was read back as something else.
    #[error("this cannot be kept in a record of kind '{kind}': it would be read back as another")]
    NotItself {
        /// The kind.
        kind: &'static str,
    },
}

impl Diary {
    /// Writes a record in the device's next place, counted from 1.
    pub fn append(&mut self, device: &str, at: At, entry: &Entry) -> Result<&Record, AppendError> {
        let device: Device = device.parse()?;
        let last = self.of_device(&device).next_back().map(|r| r.id().seq);
        let seq = last.map_or(1, |last| last + 1);
        if seq > HIGHEST_SEQ {
            return Err(AppendError::Full { device });
        }
        let id = RecordId { device, seq };
        let record = Record::write(&id, &at, entry)?;
        if !record.entry().is_some_and(|read| is_same(&read, entry)) {
            return Err(AppendError::NotItself { kind: entry.kind() });
        }
        Ok(self.kept.entry(id).or_insert(record))
    }

    /// Takes in records: a set union, the same whatever comes first. Of two that say different things in one place the
    /// earlier stays, and of the same moment the one whose text comes first; the other is kept apart.
    pub fn merge(&mut self, records: impl IntoIterator<Item = Record>) -> Merged {
        let mut merged = Merged::default();
        for record in records {
            let id = record.id().clone();
            let Some(own) = self.kept.get_mut(&id) else {
                merged.taken.push(id.clone());
                self.kept.insert(id, record);
                continue;
            };
            let apart = self.apart.get(&id).into_iter().flatten();
            let mut here = std::iter::once(&*own).chain(apart);
            if here.any(|r| r.says_the_same(&record)) {
                merged.known += 1;
                continue;
            }
            merged.conflicts.push(id.clone());
            let other = match record.stays_before(own) {
                true => std::mem::replace(own, record),
                false => record,
            };
            let apart = self.apart.entry(id).or_default();
            let at = apart.partition_point(|r| r.stays_before(&other));
            apart.insert(at, other);
        }
        merged
    }

    /// The record of an id.
    pub fn record(&self, id: &RecordId) -> Option<&Record> {
        self.kept.get(id)
    }

    /// Every record that is replayed, by device and place.
    pub fn records(&self) -> impl Iterator<Item = &Record> {
        self.kept.values()
    }

    /// The records that are kept apart, by device and place.
    pub fn apart(&self) -> impl Iterator<Item = &Record> {
        self.apart.values().flatten()
    }

    /// The places that each device must have written and that are not here.
    pub fn gaps(&self) -> Vec<Gap> {
        let mut gaps = Vec::new();
        let mut last: Option<&RecordId> = None;
        for id in self.kept.keys() {
            let before = last.filter(|last| last.device == id.device);
            let from = before.map_or(1, |last| last.seq + 1);
            if id.seq > from {
                gaps.push(Gap {
                    device: id.device.clone(),
                    from,
                    to: id.seq - 1,
                });
            }
            last = Some(id);
        }
        gaps
    }

    /// The whole diary as a file: a line for each record, by device and place, then those that are kept apart, so that who
    /// reads it keeps the same ones apart.
    pub fn export(&self) -> String {
        let lines = self.records().chain(self.apart());
        lines.flat_map(|r| [r.line(), "\n"]).collect()
    }

    /// Each harp as it was known last, by name.
    pub fn harps(&self) -> Vec<HarpKept> {
        let mut harps = BTreeMap::new();
        let records = self.in_order();
        let truths = Truths::of(records.iter().copied());
        for record in records.into_iter().filter(|r| r.kind() == "harp") {
            if let Some(Entry::Harp(kept)) = truths.entry(record) {
                harps.insert(kept.harp.clone(), kept);
            }
        }
        harps.into_values().collect()
    }

    fn of_device(&self, device: &Device) -> impl DoubleEndedIterator<Item = &Record> {
        let end = |seq| RecordId {
            device: device.clone(),
            seq,
        };
        self.kept.range(end(0)..=end(u64::MAX)).map(|(_, r)| r)
    }
}

/// Whether an entry was read back as itself. What is no number equals nothing, and is compared as it is shown.
fn is_same(read: &Entry, written: &Entry) -> bool {
    read == written || format!("{read:?}") == format!("{written:?}")
}
