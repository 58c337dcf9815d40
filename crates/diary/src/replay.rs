//! A round taken out of the diary: its plan and all that happened, ready to be run again.

use std::collections::BTreeSet;

use tuning::Heard;
use tuning::round::{Event, Plan, Round};

use crate::truths::Truths;
use crate::{
    At, Device, Diary, Entry, PlanError, Record, RecordId, RoundBegun, RoundEvents, RoundOver,
};

/// A round as the diary has it.
#[derive(Clone, Debug, PartialEq)]
pub struct KeptRound {
    /// The record that began it.
    pub id: RecordId,
    /// When it was begun.
    pub begun_at: At,
    /// What it was begun with.
    pub begun: RoundBegun,
    /// The plan that this makes.
    pub plan: Plan,
    /// What happened, in order, as far as it is known without a hole.
    pub events: Vec<Event>,
    /// The last of its ends.
    pub over: Option<RoundOver>,
    /// Whether records are missing behind the last of `events`: then the round must not be gone on with here.
    pub has_hole: bool,
    /// Records that go on from where another record had gone on already: two devices tuned at once, or one wrote twice. They
    /// are not replayed.
    pub branches: Vec<Branch>,
}

/// A record of a round that is not replayed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Branch {
    /// The record.
    pub record: RecordId,
    /// How many events it holds.
    pub events: usize,
}

/// Why a round cannot be taken out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum RoundError {
    /// No record here begins it.
    #[error(
        "no round begins with record {id}: bring the device that wrote it and this one together"
    )]
    NoSuchRound {
        /// The record.
        id: RecordId,
    },
    /// Its beginning makes no plan.
    #[error("the round of record {id}: {error}")]
    Plan {
        /// The record.
        id: RecordId,
        /// Why not.
        error: Box<PlanError>,
    },
}

impl Diary {
    /// The round that a record began.
    pub fn round(&self, id: &RecordId) -> Result<KeptRound, RoundError> {
        let records = self.in_order();
        let truths = Truths::of(records.iter().copied());
        let none = || RoundError::NoSuchRound { id: id.clone() };
        let record = self.record(id).ok_or_else(none)?;
        let Some(Entry::Round(begun)) = truths.entry(record) else {
            return Err(none());
        };
        KeptRound::of(record, begun, &records, &truths)
    }
}

impl KeptRound {
    /// The round that a record began, as it is known to have begun, out of all records in order.
    pub(crate) fn of(
        record: &Record,
        begun: RoundBegun,
        records: &[&Record],
        truths: &Truths,
    ) -> Result<KeptRound, RoundError> {
        let id = record.id();
        let plan = begun.plan().map_err(|error| RoundError::Plan {
            id: id.clone(),
            error: Box::new(error),
        })?;
        let mut round = KeptRound {
            id: id.clone(),
            begun_at: record.at().clone(),
            begun,
            plan,
            events: Vec::new(),
            over: None,
            has_hole: false,
            branches: Vec::new(),
        };
        let own = |r: &&&Record| r.kind() != "round" && r.round() == Some(id);
        let mut parts: Vec<(&Record, RoundEvents)> = Vec::new();
        for record in records.iter().filter(own) {
            match truths.entry(record) {
                Some(Entry::RoundEvents(part)) => parts.push((record, part)),
                Some(Entry::RoundOver(over)) => round.over = Some(over),
                _ => {}
            }
        }
        round.join(parts);
        Ok(round)
    }

    /// The round as it stood when its last event had happened.
    pub fn replayed(&self) -> Round {
        let mut round = Round::new(self.plan.clone());
        for event in &self.events {
            round.step(event);
        }
        round
    }

    /// The last second of the round that is known; what is added to it comes later.
    pub fn last_s(&self) -> f64 {
        let end = |event: &Event| match event {
            Event::Heard(Heard::Reading(r)) => r.at_s + r.listened_s.max(0.0),
            other => other.at_s(),
        };
        let ends = self.events.iter().map(end).filter(|s| s.is_finite());
        ends.fold(0.0, f64::max)
    }

    /// Joins the parts by the counts that they carry, which no clock can turn round. Of two that go on from the same event
    /// the one by the device that wrote what stands before it is taken; then the earlier.
    fn join(&mut self, mut parts: Vec<(&Record, RoundEvents)>) {
        parts.sort_by_key(|(_, part)| part.first);
        let mut strayed: BTreeSet<&Device> = BTreeSet::new();
        let mut writer = &self.id.device.clone();
        for rivals in parts.chunk_by_mut(|(_, a), (_, b)| a.first == b.first) {
            rivals.sort_by_key(|(record, _)| record.id().device != *writer);
            for (record, part) in rivals {
                let device = &record.id().device;
                let known = self.events.len() as u64;
                let is_strayed = strayed.contains(device);
                if part.first > known && !is_strayed {
                    self.has_hole = true;
                } else if part.first == known && !is_strayed {
                    self.events.append(&mut part.events);
                    writer = device;
                } else if !self.holds(part) {
                    strayed.insert(device);
                    self.branches.push(Branch {
                        record: record.id().clone(),
                        events: part.events.len(),
                    });
                }
            }
        }
    }

    /// Whether a part was taken already.
    fn holds(&self, part: &RoundEvents) -> bool {
        let from = usize::try_from(part.first).ok();
        let to = from.and_then(|from| from.checked_add(part.events.len()));
        let taken = from
            .zip(to)
            .and_then(|(from, to)| self.events.get(from..to));
        taken.is_some_and(|taken| taken == part.events)
    }
}
