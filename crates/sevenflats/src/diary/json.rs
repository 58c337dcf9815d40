//! What was done with the diary, for programs: one JSON object a line.

use std::io::Write;
use std::path::Path;

use ::diary::{ClockSeen, Imported, RecordId};
use serde::Serialize;
use store::{Looked, Restored};

/// Writes one line.
pub(super) fn line(value: &impl Serialize, out: &mut dyn Write) -> std::io::Result<()> {
    serde_json::to_writer(&mut *out, value)?;
    writeln!(out)
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "backed_up")]
pub(super) struct BackedUp {
    file: String,
}

impl BackedUp {
    pub(super) fn of(file: &Path) -> Self {
        let file = file.display().to_string();
        Self { file }
    }
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "exported")]
pub(super) struct Exported {
    file: String,
    records: usize,
    // only of a choice
    #[serde(skip_serializing_if = "Option::is_none")]
    not_understood: Option<usize>,
}

impl Exported {
    pub(super) fn of(file: &Path, records: usize, not_understood: Option<usize>) -> Self {
        let file = file.display().to_string();
        Self {
            file,
            records,
            not_understood,
        }
    }
}

#[derive(Serialize)]
struct Id {
    device: String,
    seq: u64,
}

impl From<&RecordId> for Id {
    fn from(id: &RecordId) -> Self {
        Self {
            device: id.device.to_string(),
            seq: id.seq,
        }
    }
}

fn ids(ids: &[RecordId]) -> Vec<Id> {
    ids.iter().map(Id::from).collect()
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "imported")]
pub(super) struct TakenIn {
    new: usize,
    known: usize,
    conflicts: Vec<Id>,
    not_taken: Vec<NotTaken>,
    clocks: Vec<ClockLine>,
}

#[derive(Serialize)]
struct NotTaken {
    line: usize,
    reason: String,
}

impl TakenIn {
    pub(super) fn of(imported: &Imported, ahead: &[ClockSeen]) -> Self {
        let not_taken = imported.troubles.iter().map(|trouble| NotTaken {
            line: trouble.line,
            reason: trouble.error.to_string(),
        });
        Self {
            new: imported.merged.taken.len(),
            known: imported.merged.known,
            conflicts: ids(&imported.merged.conflicts),
            not_taken: not_taken.collect(),
            clocks: ahead.iter().map(ClockLine::of).collect(),
        }
    }
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "checked")]
pub(super) struct CheckedLine {
    whole: bool,
    records: usize,
    devices: Vec<DeviceLine>,
    file: Vec<String>,
    damaged: Vec<DamagedLine>,
    displaced: Vec<String>,
    gaps: Vec<GapLine>,
    twins: Vec<Id>,
    not_understood: Vec<Id>,
    clocks: Vec<ClockLine>,
}

#[derive(Serialize)]
struct DeviceLine {
    device: String,
    records: usize,
}

#[derive(Serialize)]
struct DamagedLine {
    record: String,
    reason: String,
}

#[derive(Serialize)]
struct GapLine {
    device: String,
    from: u64,
    to: u64,
}

#[derive(Serialize)]
struct ClockLine {
    record: Id,
    seen: &'static str,
    by_s: f64,
}

impl CheckedLine {
    pub(super) fn of(looked: &Looked) -> Self {
        let diary = &looked.diary;
        let devices = diary.devices.iter().map(|(device, records)| DeviceLine {
            device: device.to_string(),
            records: *records,
        });
        let damaged = looked.damaged.iter().map(|(record, reason)| DamagedLine {
            record: record.clone(),
            reason: reason.to_string(),
        });
        let gaps = diary.gaps.iter().map(|gap| GapLine {
            device: gap.device.to_string(),
            from: gap.from,
            to: gap.to,
        });
        Self {
            whole: looked.is_whole(),
            records: looked.records,
            devices: devices.collect(),
            file: looked.file.clone(),
            damaged: damaged.collect(),
            displaced: looked.displaced.clone(),
            gaps: gaps.collect(),
            twins: ids(&diary.twins),
            not_understood: ids(&diary.not_understood),
            clocks: diary.clocks.iter().map(ClockLine::of).collect(),
        }
    }
}

impl ClockLine {
    fn of(seen: &ClockSeen) -> Self {
        let (record, seen, by_s) = match seen {
            ClockSeen::PutBack { record, by_s } => (record, "put_back", *by_s),
            ClockSeen::Ahead { record, by_s } => (record, "ahead", *by_s),
        };
        Self {
            record: record.into(),
            seen,
            by_s,
        }
    }
}

#[derive(Serialize)]
#[serde(tag = "kind", rename = "restored")]
pub(super) struct RestoredLine {
    device: String,
    kept: Option<String>,
    records: usize,
    whole: bool,
}

impl RestoredLine {
    pub(super) fn of(restored: &Restored) -> Self {
        let kept = restored.kept.as_ref();
        Self {
            device: restored.device.to_string(),
            kept: kept.map(|kept| kept.display().to_string()),
            records: restored.looked.records,
            whole: restored.looked.is_whole(),
        }
    }
}
