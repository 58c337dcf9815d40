//! Whether the file is whole, and nothing of the diary lost.

use diary::{At, Checked, Diary, ReadError, Record};

use crate::merge::place;
use crate::{Store, StoreError};

/// What was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Looked {
    /// What SQLite says of the file itself, where it is not whole.
    pub file: Vec<String>,
    /// Lines that are no records any more: where they stand, and why.
    pub damaged: Vec<(String, ReadError)>,
    /// Lines that do not say what the columns beside them say.
    pub displaced: Vec<String>,
    /// How many records it holds, those that are kept apart among them.
    pub records: usize,
    /// What the records say together.
    pub diary: Checked,
}

impl Looked {
    /// Whether the file is whole, and nothing is missing or claimed twice.
    pub fn is_whole(&self) -> bool {
        let file = self.file.is_empty() && self.damaged.is_empty() && self.displaced.is_empty();
        file && self.diary.is_whole()
    }
}

impl Store {
    /// Looks through everything: every page, every line, every place. `now`: the time by this device's clock.
    ///
    /// # Errors
    /// The file cannot be read at all.
    pub fn check(&self, now: &At) -> Result<Looked, StoreError> {
        let file = self.strings("PRAGMA integrity_check")?;
        let file = file.into_iter().filter(|found| found != "ok").collect();
        let (mut damaged, mut displaced) = (Vec::new(), Vec::new());
        let mut diary = Diary::default();
        let mut count = 0;
        let columns = "SELECT device, seq, kind, v, line FROM record ORDER BY device, seq";
        let apart = "SELECT device, seq, NULL, NULL, line FROM apart ORDER BY device, seq, rowid";
        for sql in [columns, apart] {
            let mut statement = self.connection.prepare(sql).map_err(|e| self.failed(&e))?;
            let mut rows = statement.query([]).map_err(|e| self.failed(&e))?;
            while let Some(row) = rows.next().map_err(|e| self.failed(&e))? {
                count += 1;
                let row = Row::of(row).map_err(|e| self.failed(&e))?;
                match Record::parse(&row.line) {
                    Err(reason) => damaged.push((row.place(), reason)),
                    Ok(record) if !row.says(&record) => displaced.push(row.place()),
                    Ok(record) => {
                        diary.merge([record]);
                    }
                }
            }
        }
        Ok(Looked {
            file,
            damaged,
            displaced,
            records: count,
            diary: diary.check(now),
        })
    }

    fn strings(&self, sql: &str) -> Result<Vec<String>, StoreError> {
        let read = || -> rusqlite::Result<Vec<String>> {
            let mut statement = self.connection.prepare(sql)?;
            statement.query_map([], |row| row.get(0))?.collect()
        };
        read().map_err(|error| self.failed(&error))
    }
}

struct Row {
    device: String,
    seq: i64,
    kind: Option<(String, i64)>,
    line: String,
}

impl Row {
    fn of(row: &rusqlite::Row<'_>) -> rusqlite::Result<Row> {
        let kind: Option<String> = row.get(2)?;
        let v: Option<i64> = row.get(3)?;
        Ok(Row {
            device: row.get(0)?,
            seq: row.get(1)?,
            kind: kind.zip(v),
            line: row.get(4)?,
        })
    }

    fn place(&self) -> String {
        format!("{} {}", self.device, self.seq)
    }

    fn says(&self, record: &Record) -> bool {
        let id = record.id();
        let kind = |(kind, v): &(String, i64)| kind == record.kind() && *v == place(record.v());
        self.device == id.device.as_str()
            && self.seq == place(id.seq)
            && self.kind.as_ref().is_none_or(kind)
    }
}
