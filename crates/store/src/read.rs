//! What the file holds: as a diary, or line by line.

use std::io::Write;

use diary::{Diary, Record};

use crate::{Store, StoreError};

/// Every line, in the order of an export.
const LINES: &str = "SELECT line FROM record ORDER BY device, seq";
/// Every line that is kept apart.
const APART: &str = "SELECT line FROM apart ORDER BY device, seq, rowid";
/// Every line but the events of rounds whose end stands behind all of them, by the place in the device that wrote both.
const ENDS: &str = "
    SELECT line FROM record WHERE kind <> 'round_events' OR v > 2 OR EXISTS (
        SELECT 1 FROM record AS event
        WHERE event.round_device = record.round_device AND event.round_seq = record.round_seq
            AND event.kind = 'round_events' AND NOT EXISTS (
                SELECT 1 FROM record AS end
                WHERE end.round_device = event.round_device AND end.round_seq = event.round_seq
                    AND end.kind = 'round_over' AND end.device = event.device AND end.seq > event.seq
            )
    ) ORDER BY device, seq";

impl Store {
    /// The whole diary.
    ///
    /// # Errors
    /// A line that is no record, or a disk that refuses.
    pub fn diary(&self) -> Result<Diary, StoreError> {
        self.of(&[LINES, APART])
    }

    /// The diary without the events of rounds that are over: all that [`Diary::known`] asks for, in a fraction of the time.
    ///
    /// # Errors
    /// As [`Store::diary`].
    pub fn ends(&self) -> Result<Diary, StoreError> {
        self.of(&[ENDS, APART])
    }

    /// Writes every line, those that are kept apart at the end, as [`Diary::export`] does.
    ///
    /// # Errors
    /// The file cannot be read; what `out` says stands inside.
    pub fn export(&self, out: &mut dyn Write) -> Result<std::io::Result<usize>, StoreError> {
        let mut count = 0;
        for sql in [LINES, APART] {
            let mut statement = self.connection.prepare(sql).map_err(|e| self.failed(&e))?;
            let mut rows = statement.query([]).map_err(|e| self.failed(&e))?;
            while let Some(row) = rows.next().map_err(|e| self.failed(&e))? {
                let line = row.get_ref(0).map_err(|e| self.failed(&e))?;
                let line = line.as_bytes().unwrap_or_default();
                if let Err(error) = out.write_all(line).and_then(|()| out.write_all(b"\n")) {
                    return Ok(Err(error));
                }
                count += 1;
            }
        }
        Ok(Ok(count))
    }

    fn of(&self, all: &[&str]) -> Result<Diary, StoreError> {
        let mut diary = Diary::default();
        for sql in all {
            let mut records = Vec::new();
            let mut statement = self.connection.prepare(sql).map_err(|e| self.failed(&e))?;
            let mut rows = statement.query([]).map_err(|e| self.failed(&e))?;
            while let Some(row) = rows.next().map_err(|e| self.failed(&e))? {
                let line: String = row.get(0).map_err(|e| self.failed(&e))?;
                let record = Record::parse_again(&line);
                records.push(record.map_err(|reason| StoreError::Line {
                    path: self.path.clone(),
                    reason,
                })?);
            }
            diary.merge(records);
        }
        Ok(diary)
    }
}
