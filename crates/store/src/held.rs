//! What the file holds, told shortly, and lines of certain places: for whoever lacks them.

use diary::{At, Device, Entry, Gap, Held, LineSum, Met, Record, RecordId};
use rusqlite::params;

use crate::merge::place;
use crate::{Store, StoreError};

impl Store {
    /// Every place, with sums over what stands there: all lines are read.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn held(&self) -> Result<Held, StoreError> {
        let mut held = self.places()?;
        for sql in [
            "SELECT device, seq, line FROM record",
            "SELECT device, seq, line FROM apart",
        ] {
            self.each(sql, &mut |id, line| held.add(id, Some(LineSum::of(line))))?;
        }
        Ok(held)
    }

    /// Every place, without sums: no line is read.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn places(&self) -> Result<Held, StoreError> {
        let mut held = Held::default();
        let sql = "SELECT device, seq, '' FROM record ORDER BY device, seq";
        self.each(sql, &mut |id, _| held.add(id, None))?;
        Ok(held)
    }

    /// The sum over what stands in each place of a stretch.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn sums(&self, of: &Gap) -> Result<Vec<(u64, LineSum)>, StoreError> {
        let mut sums: Vec<(u64, LineSum)> = Vec::new();
        self.lines(of, &mut |id, line| {
            let sum = LineSum::of(line);
            match sums.last_mut().filter(|(seq, _)| *seq == id.seq) {
                Some((_, first)) => *first = first.and(sum),
                None => sums.push((id.seq, sum)),
            }
            true
        })?;
        Ok(sums)
    }

    /// The lines of a stretch of places, those that are kept apart among them, until `wanted` says that it is enough.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn lines(
        &self,
        of: &Gap,
        wanted: &mut dyn FnMut(&RecordId, &str) -> bool,
    ) -> Result<(), StoreError> {
        let sql = "
            SELECT device, seq, line, 0 AS apart, 0 FROM record WHERE device = ?1 AND seq BETWEEN ?2 AND ?3
            UNION ALL
            SELECT device, seq, line, 1, rowid FROM apart WHERE device = ?1 AND seq BETWEEN ?2 AND ?3
            ORDER BY 2, 4, 5";
        let failed = |error: rusqlite::Error| self.failed(&error);
        let mut statement = self.connection.prepare_cached(sql).map_err(failed)?;
        let of = params![of.device.as_str(), place(of.from), place(of.to)];
        let mut rows = statement.query(of).map_err(failed)?;
        while let Some(row) = rows.next().map_err(failed)? {
            let line: String = row.get(2).map_err(failed)?;
            if let Some(id) = id(row).map_err(failed)?
                && !wanted(&id, &line)
            {
                break;
            }
        }
        Ok(())
    }

    /// What this file wrote last of another device's clock, and when.
    ///
    /// # Errors
    /// The file cannot be read.
    pub fn last_met(&self, other: &Device) -> Result<Option<(At, Met)>, StoreError> {
        let sql = "SELECT line FROM record WHERE device = ?1 AND kind = 'met' ORDER BY seq DESC";
        let failed = |error: rusqlite::Error| self.failed(&error);
        let mut statement = self.connection.prepare_cached(sql).map_err(failed)?;
        let mut rows = statement.query([self.device.as_str()]).map_err(failed)?;
        while let Some(row) = rows.next().map_err(failed)? {
            let line: String = row.get(0).map_err(failed)?;
            let Ok(record) = Record::parse_again(&line) else {
                continue;
            };
            if let Some(Entry::Met(met)) = record.entry().filter(|entry| is_of(entry, other)) {
                return Ok(Some((record.at().clone(), met)));
            }
        }
        Ok(None)
    }

    /// Whether the diary's name still means this file: a backup may have been put in its place.
    pub fn is_in_place(&self) -> bool {
        self.file == crate::open::file(&self.path)
    }

    fn each(&self, sql: &str, found: &mut dyn FnMut(&RecordId, &str)) -> Result<(), StoreError> {
        let failed = |error: rusqlite::Error| self.failed(&error);
        let mut statement = self.connection.prepare(sql).map_err(failed)?;
        let mut rows = statement.query([]).map_err(failed)?;
        // most rows are of the device of the row before
        let mut last: Option<RecordId> = None;
        while let Some(row) = rows.next().map_err(failed)? {
            let device = row.get_ref(0).map_err(failed)?;
            let device = device.as_str().unwrap_or_default();
            let seq: i64 = row.get(1).map_err(failed)?;
            let same = last.take().filter(|last| last.device.as_str() == device);
            let of = match same {
                Some(last) => Some(last.device),
                None => device.parse().ok(),
            };
            if let (Some(device), Ok(seq)) = (of, u64::try_from(seq)) {
                let id = RecordId { device, seq };
                let line = row.get_ref(2).map_err(failed)?;
                found(&id, line.as_str().unwrap_or_default());
                last = Some(id);
            }
        }
        Ok(())
    }
}

fn is_of(entry: &Entry, other: &Device) -> bool {
    matches!(entry, Entry::Met(met) if met.device == *other)
}

/// A row's device and place; none where they are damaged.
fn id(row: &rusqlite::Row<'_>) -> rusqlite::Result<Option<RecordId>> {
    let device: String = row.get(0)?;
    let seq: i64 = row.get(1)?;
    let device = device.parse().ok();
    let id = device.zip(u64::try_from(seq).ok());
    Ok(id.map(|(device, seq)| RecordId { device, seq }))
}
