//! What can be wrong with a line, and what to do about it.

use crate::record::LONGEST_LINE;
use crate::{AtError, DeviceError, HIGHEST_SEQ};

/// A line that is no record. Nothing of it was taken.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ReadError {
    /// Longer than any record.
    #[error(
        "{bytes} bytes are more than a record has ({LONGEST_LINE}): is this file a diary? a diary has a line for each record"
    )]
    TooLong {
        /// How many.
        bytes: usize,
    },
    /// No text.
    #[error("this is no text in UTF-8: copy the file again, without opening it in another program")]
    NotUtf8,
    /// A record holds no end of a line.
    #[error("a record stands on one line: take out the line ends inside it")]
    NotOneLine,
    /// The text ends in the middle of the record.
    #[error("the line ends in the middle of a record: the file was cut off; copy it again")]
    CutOff,
    /// No JSON, or a name twice in one object.
    #[error("this is no record: {message}; copy the file again, or put the line right by hand")]
    Json {
        /// What the reader of JSON says; its column counts from the line's first sign.
        message: String,
    },
    /// JSON without what every record has.
    #[error("this is no record of a diary: {message}")]
    Envelope {
        /// What is missing or of another type.
        message: String,
    },
    /// The device has no proper name.
    #[error(transparent)]
    Device(#[from] DeviceError),
    /// The place is too high.
    #[error("seq {seq} is too high: at most {HIGHEST_SEQ}")]
    Seq {
        /// The place.
        seq: u64,
    },
    /// The time is none in UTC.
    #[error(transparent)]
    At(#[from] AtError),
    /// The kind is no word, or the version nought.
    #[error("kind '{kind}', version {v} cannot be: a kind is a word, versions count from 1")]
    Kind {
        /// The kind, at most 40 characters.
        kind: String,
        /// The version.
        v: u64,
    },
    /// The body is none of its kind.
    #[error("this is no record of kind '{kind}', version {v}: {message}")]
    Body {
        /// The kind.
        kind: String,
        /// The version.
        v: u64,
        /// What is missing or wrong.
        message: String,
    },
}
