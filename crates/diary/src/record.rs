//! One record: a line of JSON, kept as it came.

mod about;

use serde::Deserialize;
use serde_json::error::Category;

use crate::entry::ORDERED;
use crate::record::about::AboutBody;
use crate::writer::line;
use crate::{At, Device, Entry, ReadError, RecordId, strict};

/// Longest line of a record, in bytes, its end left out.
pub const LONGEST_LINE: usize = 4 << 20;
/// Longest name of a kind, in bytes.
const LONGEST_KIND: usize = 100;
/// Blanks of JSON, RFC 8259, section 2.
const BLANKS: [char; 4] = [' ', '\t', '\n', '\r'];

/// A record. Its line is never changed: what this program does not know of it is passed on byte for byte.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Record {
    id: RecordId,
    at: At,
    kind: String,
    v: u64,
    /// the round that it is about, for a record that is part of one
    round: Option<RecordId>,
    line: String,
}

/// What every record has; whatever else stands there stays in the line.
#[derive(Deserialize)]
struct Envelope {
    device: String,
    seq: u64,
    at: String,
    kind: String,
    v: u64,
    body: AboutBody,
}

impl Record {
    /// Reads one line, its end left out or not; blanks around it are dropped. The body of a known kind is read through.
    ///
    /// ```
    /// use diary::Record;
    /// let line = r#"{"device":"phone","seq":7,"at":"2026-11-26T18:40:00Z","kind":"dream","v":3,"body":[1.50]}"#;
    /// let record = Record::parse(line)?;
    /// assert_eq!(record.line(), line);
    /// assert_eq!((record.kind(), record.entry()), ("dream", None));
    /// # Ok::<(), diary::ReadError>(())
    /// ```
    pub fn parse(line: &str) -> Result<Record, ReadError> {
        let line = line.trim_matches(BLANKS);
        if line.len() > LONGEST_LINE {
            return Err(ReadError::TooLong { bytes: line.len() });
        }
        if line.contains(['\n', '\r']) {
            return Err(ReadError::NotOneLine);
        }
        strict::read(line).map_err(|error| match error.classify() {
            Category::Eof => ReadError::CutOff,
            _ => ReadError::Json {
                message: error.to_string(),
            },
        })?;
        let record = Record::parse_again(line)?;
        if let Some(Err(message)) = Entry::read(&record.kind, record.v, line) {
            let (kind, v) = (record.kind, record.v);
            return Err(ReadError::Body { kind, v, message });
        }
        Ok(record)
    }

    /// Reads a line that [`Record::parse`] took before, as whoever keeps records does: a name that stands twice is not looked
    /// for again, and the body is not read through.
    ///
    /// # Errors
    /// What is wrong with the envelope.
    pub fn parse_again(line: &str) -> Result<Record, ReadError> {
        let envelope: Envelope =
            serde_json::from_str(line).map_err(|error| ReadError::Envelope {
                message: error.to_string(),
            })?;
        let device: Device = envelope.device.parse()?;
        if envelope.seq > crate::HIGHEST_SEQ {
            return Err(ReadError::Seq { seq: envelope.seq });
        }
        let at: At = envelope.at.parse()?;
        let (kind, v) = (envelope.kind, envelope.v);
        if v == 0 || kind.is_empty() || kind.len() > LONGEST_KIND || kind.contains(char::is_control)
        {
            let kind = kind.chars().take(40).collect();
            return Err(ReadError::Kind { kind, v });
        }
        let id = RecordId {
            device,
            seq: envelope.seq,
        };
        let round = match (kind.as_str(), v) {
            ("round", 1) => Some(id.clone()),
            ("round_events" | "round_over", 1) | ("round_events", ORDERED) => envelope.body.round,
            _ => None,
        };
        Ok(Record {
            id,
            at,
            kind,
            v,
            round,
            line: line.to_owned(),
        })
    }

    /// Writes a record, and reads it back, so that no line is ever written that cannot be read.
    pub(crate) fn write(id: &RecordId, at: &At, entry: &Entry) -> Result<Record, ReadError> {
        Record::parse(&line(id, at, entry)?)
    }

    /// Which record it is.
    pub fn id(&self) -> &RecordId {
        &self.id
    }

    /// When it was written, as its device had it.
    pub fn at(&self) -> &At {
        &self.at
    }

    /// Its kind, known here or not.
    pub fn kind(&self) -> &str {
        &self.kind
    }

    /// The version of its kind, from 1.
    pub fn v(&self) -> u64 {
        self.v
    }

    /// The line, without an end.
    pub fn line(&self) -> &str {
        &self.line
    }

    /// What it says; `None` for a kind or version that is not known here.
    pub fn entry(&self) -> Option<Entry> {
        Entry::read(&self.kind, self.v, &self.line)?.ok()
    }

    /// Whether its kind or version is not known here.
    pub fn is_unknown(&self) -> bool {
        !Entry::knows(&self.kind, self.v)
    }

    /// Whether two lines say the same: blanks and the order of names do not matter.
    pub fn says_the_same(&self, other: &Record) -> bool {
        let read = |record: &Record| strict::read(&record.line).ok();
        self.line == other.line || read(self).is_some_and(|own| Some(own) == read(other))
    }

    /// Which of two records that say different things in one place stays: the earlier; of the same moment, so that all
    /// devices choose alike, the one whose text comes first, blanks and the order of names left aside.
    pub fn stays_before(&self, other: &Record) -> bool {
        let text = |record: &Record| strict::read(&record.line).ok().map(|v| v.to_string());
        let by_text = || text(self).cmp(&text(other));
        self.at.cmp(&other.at).then_with(by_text).is_lt()
    }

    /// The round that it is about, for a record that is part of one.
    pub fn round(&self) -> Option<&RecordId> {
        self.round.as_ref()
    }
}
