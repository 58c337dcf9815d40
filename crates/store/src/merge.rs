//! Records of others: a set union, in one transaction.

use diary::{Imported, Merged, Record};
use rusqlite::{Connection, OptionalExtension, TransactionBehavior, params};

use crate::{Store, StoreError};

impl Store {
    /// Takes in a file of lines. What is whole is taken; what is not is named by its line.
    ///
    /// # Errors
    /// The disk refuses; then nothing was taken.
    pub fn import(&mut self, file: &[u8]) -> Result<Imported, StoreError> {
        let (records, troubles) = diary::records_of(file);
        let merged = self.merge(&records)?;
        Ok(Imported { merged, troubles })
    }

    /// Takes in records as [`diary::Diary::merge`] does: what is new is added, what says something else in a place that is
    /// taken is kept apart, or takes the place if it is the earlier, whatever came first.
    ///
    /// # Errors
    /// The disk refuses; then nothing was taken.
    pub fn merge(&mut self, records: &[Record]) -> Result<Merged, StoreError> {
        let path = &self.path;
        let failed = |error: rusqlite::Error| StoreError::of(path, &error);
        let change = self
            .connection
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .map_err(failed)?;
        let mut merged = Merged::default();
        for record in records {
            take(&change, record, &mut merged).map_err(failed)?;
        }
        change.commit().map_err(failed)?;
        Ok(merged)
    }
}

/// A record into its place, which must be free.
pub(crate) fn insert(connection: &Connection, record: &Record) -> rusqlite::Result<()> {
    let mut statement = connection.prepare_cached(
        "INSERT INTO record (device, seq, kind, v, round_device, round_seq, line)
         VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)",
    )?;
    let (id, round) = (record.id(), record.round());
    statement.execute(params![
        id.device.as_str(),
        place(id.seq),
        record.kind(),
        place(record.v()),
        round.map(|round| round.device.as_str()),
        round.map(|round| place(round.seq)),
        record.line(),
    ])?;
    Ok(())
}

/// SQLite's whole numbers have a sign. Places stay far below; a version that does not is kept as the highest.
pub(crate) fn place(number: u64) -> i64 {
    i64::try_from(number).unwrap_or(i64::MAX)
}

fn take(change: &Connection, record: &Record, merged: &mut Merged) -> rusqlite::Result<()> {
    let id = record.id();
    let at = params![id.device.as_str(), place(id.seq)];
    let own: Option<String> = change
        .prepare_cached("SELECT line FROM record WHERE device = ?1 AND seq = ?2")?
        .query_row(at, |row| row.get(0))
        .optional()?;
    let Some(own) = own else {
        insert(change, record)?;
        merged.taken.push(id.clone());
        return Ok(());
    };
    let apart: Vec<String> = change
        .prepare_cached("SELECT line FROM apart WHERE device = ?1 AND seq = ?2")?
        .query_map(at, |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    // a line that was damaged here since says nothing, and stands in nobody's way
    let read = |line: &String| Record::parse_again(line).ok();
    let is_here = |line: &String| read(line).is_some_and(|r| r.says_the_same(record));
    if std::iter::once(&own).chain(&apart).any(is_here) {
        merged.known += 1;
        return Ok(());
    }
    merged.conflicts.push(id.clone());
    if read(&own).is_none_or(|own| record.stays_before(&own)) {
        change.execute("DELETE FROM record WHERE device = ?1 AND seq = ?2", at)?;
        insert(change, record)?;
        keep_apart(change, record, &own)
    } else {
        keep_apart(change, record, record.line())
    }
}

fn keep_apart(change: &Connection, of: &Record, line: &str) -> rusqlite::Result<()> {
    let id = of.id();
    change
        .prepare_cached("INSERT INTO apart (device, seq, line) VALUES (?1, ?2, ?3)")?
        .execute(params![id.device.as_str(), place(id.seq), line])?;
    Ok(())
}
