//! New records of this file's own device: all of them, or none.

use diary::{At, Entry, RecordId, Writer};
use rusqlite::TransactionBehavior;

use crate::{Store, StoreError};

impl Store {
    /// Writes records in the next places, counted from 1, in one transaction.
    ///
    /// # Errors
    /// An entry that would not be read back as itself, or a disk that refuses; then nothing was written.
    pub fn append(&mut self, at: &At, entries: &[Entry]) -> Result<Vec<RecordId>, StoreError> {
        let device = self.device.to_string();
        let path = &self.path;
        let failed = |error: rusqlite::Error| StoreError::of(path, &error);
        // begun as a writer, so that no other takes the same place
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(failed)?;
        let last = "SELECT coalesce(max(seq), 0) FROM record WHERE device = ?1";
        let last: i64 = change
            .query_row(last, [&device], |row| row.get(0))
            .map_err(failed)?;
        let next = u64::try_from(last).unwrap_or(0) + 1;
        let mut writer = Writer::new(&device, next).map_err(diary::AppendError::from)?;
        let mut written = Vec::new();
        for entry in entries {
            written.push(writer.next().clone());
            let line = writer.line(at, entry)?;
            let record = diary::Record::parse(&line).map_err(diary::AppendError::from)?;
            crate::merge::insert(&change, &record).map_err(failed)?;
        }
        change.commit().map_err(failed)?;
        Ok(written)
    }
}
