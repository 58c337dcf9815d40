//! A device's next records, a line each, for who has no diary at hand.
//!
//! Nothing is read here: a program that only writes has no reader of records in it. What is written reads back as itself
//! because of how it is written: figures that are no numbers are words, a text that names nothing is refused, and tests
//! hold every line against the reader.

use serde::Serialize;

use crate::{
    AppendError, At, Device, DeviceError, Entry, HIGHEST_SEQ, LONGEST_LINE, ReadError, RecordId,
};

/// Writes records, and keeps none of them.
///
/// ```
/// use diary::{Diary, Entry, HarpKept, Writer};
/// let little = HarpKept { harp: "little".to_owned(), toml: "kind = \"lever34\"\n".to_owned() };
/// let mut writer = Writer::new("phone", 7)?;
/// let line = writer.line(&"2026-11-26T18:40:00Z".parse()?, &Entry::Harp(little))?;
/// assert!(line.starts_with(r#"{"device":"phone","seq":7,"at":"2026-11-26T18:40:00Z","kind":"harp","v":1,"#));
/// assert_eq!(writer.next().seq, 8);
/// assert_eq!(Diary::default().import(line.as_bytes()).troubles, []);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Writer {
    next: RecordId,
}

impl Writer {
    /// For a device and the first place that it has not written: 1 for a new one, else one more than its last.
    pub fn new(device: &str, next: u64) -> Result<Writer, DeviceError> {
        let device: Device = device.parse()?;
        Ok(Writer {
            next: RecordId { device, seq: next },
        })
    }

    /// The id that the next record will have.
    pub fn next(&self) -> &RecordId {
        &self.next
    }

    /// The next record, without an end of line. Where it cannot be written its place stays free.
    pub fn line(&mut self, at: &At, entry: &Entry) -> Result<String, AppendError> {
        if self.next.seq > HIGHEST_SEQ {
            return Err(AppendError::Full {
                device: self.next.device.clone(),
            });
        }
        let line = line(&self.next, at, entry)?;
        self.next.seq += 1;
        Ok(line)
    }
}

/// What every record begins with, in this order; the body follows.
#[derive(Serialize)]
struct Head<'a> {
    device: &'a str,
    seq: u64,
    at: &'a str,
    kind: &'a str,
    v: u64,
}

/// A record as it is written. Refused where it would not read back as itself, or is longer than any record.
pub(crate) fn line(id: &RecordId, at: &At, entry: &Entry) -> Result<String, ReadError> {
    let head = Head {
        device: id.device.as_str(),
        seq: id.seq,
        at: at.as_str(),
        kind: entry.kind(),
        v: entry.v(),
    };
    let json = |error: serde_json::Error| ReadError::Json {
        message: error.to_string(),
    };
    let mut line = serde_json::to_string(&head).map_err(json)?;
    line.pop();
    line.push_str(",\"body\":");
    line.push_str(&entry.body().map_err(json)?);
    line.push('}');
    if line.len() > LONGEST_LINE {
        return Err(ReadError::TooLong { bytes: line.len() });
    }
    Ok(line)
}
