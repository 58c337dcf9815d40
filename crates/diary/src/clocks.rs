//! How the clocks of devices stood to each other, as far as devices saw it when they met.
//!
//! All devices that met, one after the other, are counted by the clock of one of them: that which saw the most others, which
//! is the computer beside which the others keep theirs; of equals the one whose name comes first. What was written between
//! two meetings is corrected by what was seen at the later one.

use std::collections::{BTreeMap, BTreeSet};

use crate::{Device, Entry, Met, Moment, Record, RecordId};

/// Larger than any clock is wrong by, seconds: a hundred years.
const MOST_S: f64 = 100.0 * 365.25 * 86_400.0;

/// Every device whose clock was seen, but those that the others are counted by.
#[derive(Default)]
pub(crate) struct Clocks {
    seen: BTreeMap<Device, Vec<Seen>>,
}

/// A meeting, as one of the two is corrected by it.
#[derive(Clone)]
struct Seen {
    /// the last place that it had written
    seq: u64,
    /// the other, and its place
    by: RecordId,
    ahead_s: f64,
}

impl Clocks {
    pub(crate) fn of<'a>(records: impl Iterator<Item = &'a Record>) -> Clocks {
        let mut written: BTreeMap<Device, u64> = BTreeMap::new();
        let mut all: BTreeMap<Device, Vec<Seen>> = BTreeMap::new();
        for record in records.filter(|r| r.kind() == "met") {
            let Some(Entry::Met(met)) = record.entry() else {
                continue;
            };
            let writer = record.id();
            if met.device == writer.device || !met.ahead_s.is_finite() || met.ahead_s.abs() > MOST_S
            {
                continue;
            }
            *written.entry(writer.device.clone()).or_default() += 1;
            written.entry(met.device.clone()).or_default();
            for (device, seen) in both_ways(writer, met) {
                all.entry(device).or_default().push(seen);
            }
        }
        let mut roots: Vec<(&Device, u64)> = written.iter().map(|(d, n)| (d, *n)).collect();
        roots.sort_by(|(a, most), (b, other)| other.cmp(most).then(a.cmp(b)));
        let mut clocks = Clocks::default();
        let mut reached = BTreeSet::new();
        for (root, _) in roots {
            clocks.reach(root, &all, &mut reached);
        }
        clocks
    }

    /// The record's moment by the common clock.
    pub(crate) fn moment(&self, record: &Record) -> Moment {
        Moment::of(record.at()).plus_s(-self.ahead_s(record.id()))
    }

    fn ahead_s(&self, id: &RecordId) -> f64 {
        let (mut ahead_s, mut id) = (0.0, id);
        // the meetings form a tree, whose root has none
        while let Some(seen) = self.seen.get(&id.device) {
            let at = seen.partition_point(|seen| seen.seq < id.seq);
            let Some(seen) = seen.get(at).or(seen.last()) else {
                break;
            };
            ahead_s += seen.ahead_s;
            id = &seen.by;
        }
        ahead_s
    }

    /// From a device to all that met it, and on from those.
    fn reach(
        &mut self,
        root: &Device,
        all: &BTreeMap<Device, Vec<Seen>>,
        reached: &mut BTreeSet<Device>,
    ) {
        if !reached.insert(root.clone()) {
            return;
        }
        let mut next = vec![root.clone()];
        while let Some(from) = next.pop() {
            for (device, seen) in all {
                let towards = seen.iter().filter(|seen| seen.by.device == from);
                let mut towards: Vec<Seen> = towards.cloned().collect();
                if towards.is_empty() || !reached.insert(device.clone()) {
                    continue;
                }
                towards.sort_by(|a, b| a.seq.cmp(&b.seq).then(a.by.cmp(&b.by)));
                self.seen.insert(device.clone(), towards);
                next.push(device.clone());
            }
        }
    }
}

fn both_ways(writer: &RecordId, met: Met) -> [(Device, Seen); 2] {
    let other = RecordId {
        device: met.device.clone(),
        seq: met.seq,
    };
    let seen = Seen {
        seq: met.seq,
        by: writer.clone(),
        ahead_s: met.ahead_s,
    };
    let back = Seen {
        seq: writer.seq,
        by: other,
        ahead_s: -met.ahead_s,
    };
    [(met.device, seen), (writer.device.clone(), back)]
}
