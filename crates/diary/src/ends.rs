//! The records that [`Diary::known`] asks for, gathered from all of them: the events of rounds that are over are let go as they
//! pass, for they are most of a diary, and whoever holds them all at once needs the room for them.

use std::collections::BTreeMap;

use crate::{Device, Diary, Record, RecordId};

/// A diary without the events of rounds that are over.
#[derive(Default)]
pub struct Ends {
    diary: Diary,
    rounds: BTreeMap<RecordId, Round>,
}

/// What passed of one round.
#[derive(Default)]
struct Round {
    /// events behind which no end was seen yet
    events: Vec<Record>,
    /// the last end that each device wrote
    ends: BTreeMap<Device, u64>,
    /// whether events of it were let go
    let_go: bool,
}

/// A round went on behind its end, and the events before that were let go: all its records are to be read, into a [`Diary`].
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("the round of {} goes on behind its end", round.device)]
pub struct CutShort {
    /// The round.
    pub round: RecordId,
}

impl Ends {
    /// Takes in records, best by device and place: the fewest events are held then.
    ///
    /// ```
    /// use diary::{Ends, Record};
    /// let air = r#"{"device":"phone","seq":1,"at":"2026-11-26T18:40:00Z","kind":"air","v":1,"body":{"harp":null,"temperature_c":20.5,"humidity_percent":null}}"#;
    /// let mut ends = Ends::default();
    /// ends.push([Record::parse(air)?]);
    /// assert_eq!(ends.finish().unwrap().known().air.len(), 1);
    /// # Ok::<(), diary::ReadError>(())
    /// ```
    pub fn push(&mut self, records: impl IntoIterator<Item = Record>) {
        for record in records {
            match (record.kind(), record.round().cloned()) {
                ("round_events", Some(round)) => self.event(round, record),
                ("round_over", Some(round)) => {
                    self.end(round, record.id());
                    self.diary.merge([record]);
                }
                _ => {
                    self.diary.merge([record]);
                }
            }
        }
    }

    fn event(&mut self, round: RecordId, record: Record) {
        let round = self.rounds.entry(round).or_default();
        let end = round.ends.get(&record.id().device);
        if end.is_some_and(|end| *end > record.id().seq) {
            round.let_go = true;
        } else {
            round.events.push(record);
        }
    }

    fn end(&mut self, round: RecordId, id: &RecordId) {
        let round = self.rounds.entry(round).or_default();
        let end = round.ends.entry(id.device.clone()).or_default();
        *end = (*end).max(id.seq);
        let end = *end;
        let held = round.events.len();
        let is_behind = |record: &Record| record.id().device != id.device || record.id().seq > end;
        round.events.retain(is_behind);
        round.let_go |= round.events.len() < held;
    }

    /// What was gathered.
    ///
    /// # Errors
    /// A round that went on behind its end.
    pub fn finish(self) -> Result<Diary, CutShort> {
        let mut diary = self.diary;
        for (round, told) in self.rounds {
            if told.let_go && !told.events.is_empty() {
                return Err(CutShort { round });
            }
            diary.merge(told.events);
        }
        Ok(diary)
    }
}
