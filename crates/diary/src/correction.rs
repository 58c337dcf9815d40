//! What was written wrong is put right by another record; the first stays as it is.

use serde::Deserialize;
use serde_json::Value;

use crate::record_id::IdBody;
use crate::{Entry, RecordId};

/// A record is corrected or withdrawn. Of several corrections of one record the last holds; a correction that is withdrawn
/// itself does not count.
#[derive(Clone, Debug, PartialEq)]
pub struct Correction {
    /// The record that was wrong.
    pub of: RecordId,
    /// What is true.
    pub now: Now,
    /// Why, in her words; may be empty.
    pub why: String,
}

/// What a corrected record says now.
#[derive(Clone, Debug, PartialEq)]
pub enum Now {
    /// Nothing: it should not have been written.
    Withdrawn,
    /// This, at the same moment.
    Entry(Box<Entry>),
    /// Something of a kind or version that is not known here, so that nothing is known in its place.
    Unknown(UnknownEntry),
}

/// What a correction puts in the place of a record, where that is not known here: kept so that it can be written again.
#[derive(Clone, Debug, PartialEq)]
pub struct UnknownEntry {
    /// The kind.
    pub kind: String,
    /// The version.
    pub v: u64,
    /// its JSON
    body: String,
}

#[derive(Deserialize)]
pub(crate) struct CorrectionBody {
    of: IdBody,
    now: Option<NowBody>,
    why: String,
}

#[derive(Deserialize)]
struct NowBody {
    kind: String,
    v: u64,
    body: Value,
}

impl Correction {
    /// The body as JSON, put together without a reader: a body stands in it as its own kind writes it.
    pub(crate) fn body(&self) -> Result<String, serde_json::Error> {
        let now = match &self.now {
            Now::Withdrawn => "null".to_owned(),
            Now::Entry(entry) => now_body(entry.kind(), entry.v(), &entry.body()?)?,
            Now::Unknown(unknown) => now_body(&unknown.kind, unknown.v, &unknown.body)?,
        };
        let of = serde_json::to_string(&IdBody::from(&self.of))?;
        let why = serde_json::to_string(&self.why)?;
        Ok(format!(r#"{{"of":{of},"now":{now},"why":{why}}}"#))
    }
}

fn now_body(kind: &str, v: u64, body: &str) -> Result<String, serde_json::Error> {
    let kind = serde_json::to_string(kind)?;
    Ok(format!(r#"{{"kind":{kind},"v":{v},"body":{body}}}"#))
}

/// Refused, with the reason in words, where it holds another correction or what is none of its kind.
impl TryFrom<CorrectionBody> for Correction {
    type Error = String;

    fn try_from(body: CorrectionBody) -> Result<Self, String> {
        let now = match body.now {
            None => Now::Withdrawn,
            Some(now) if now.kind == KIND => {
                return Err(
                    "a correction holds no other: name the record that was wrong at first"
                        .to_owned(),
                );
            }
            Some(NowBody { kind, v, body }) => {
                let body = body.to_string();
                match Entry::read(&kind, v, &format!(r#"{{"body":{body}}}"#)) {
                    Some(entry) => Now::Entry(Box::new(entry?)),
                    None => Now::Unknown(UnknownEntry { kind, v, body }),
                }
            }
        };
        Ok(Self {
            of: body.of.into(),
            now,
            why: body.why,
        })
    }
}

/// The kind of these records.
pub(crate) const KIND: &str = "correction";
