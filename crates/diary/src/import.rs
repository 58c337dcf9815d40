//! A file taken into the diary, line by line; a bad line is named, and the rest is read.

use crate::{Diary, Merged, ReadError, Record};

/// What became of a file.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Imported {
    /// Of its records.
    pub merged: Merged,
    /// Of its other lines.
    pub troubles: Vec<LineTrouble>,
}

/// A line that is no record.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("line {line}: {error}")]
pub struct LineTrouble {
    /// The line, from 1.
    pub line: usize,
    /// What is wrong with it.
    pub error: ReadError,
}

/// What some programs write before a text, U+FEFF.
const BYTE_ORDER_MARK: &[u8] = b"\xef\xbb\xbf";

impl Diary {
    /// Takes in a file as [`Diary::export`] writes it. Empty lines, a byte order mark and ends of lines as Windows writes
    /// them are fine; read twice it is read once.
    pub fn import(&mut self, file: &[u8]) -> Imported {
        let (records, troubles) = records_of(file);
        Imported {
            merged: self.merge(records),
            troubles,
        }
    }
}

/// The records of a file, and its lines that are none; for who keeps a diary elsewhere.
pub fn records_of(file: &[u8]) -> (Vec<Record>, Vec<LineTrouble>) {
    let file = file.strip_prefix(BYTE_ORDER_MARK).unwrap_or(file);
    let (mut records, mut troubles) = (Vec::new(), Vec::new());
    for (line, number) in file.split(|byte| *byte == b'\n').zip(1..) {
        if line.trim_ascii().is_empty() {
            continue;
        }
        match read(line) {
            Ok(record) => records.push(record),
            Err(error) => troubles.push(LineTrouble {
                line: number,
                error,
            }),
        }
    }
    (records, troubles)
}

fn read(line: &[u8]) -> Result<Record, ReadError> {
    let line = line.trim_ascii();
    // a file that is no diary may be one long line: it is not even looked at
    if line.len() > crate::LONGEST_LINE {
        return Err(ReadError::TooLong { bytes: line.len() });
    }
    let text = std::str::from_utf8(line).map_err(|_| ReadError::NotUtf8)?;
    Record::parse(text)
}
