//! What can be wrong with a harp file, and what to do about it.

use crate::{Field, HarpError, HarpKind, StringNameError};

/// A harp file that cannot be read; lines count from 1.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HarpFileError {
    /// Not TOML at all.
    #[error("line {line}: {message}")]
    Syntax {
        /// Line.
        line: usize,
        /// What the reader of TOML says.
        message: String,
    },
    /// A key that nothing reads.
    #[error("line {line}: {place}: nothing is called '{key}'; known are {known}")]
    UnknownKey {
        /// Line.
        line: usize,
        /// The harp, or which string or material.
        place: String,
        /// The key.
        key: String,
        /// The keys that are read there.
        known: String,
    },
    /// A value of another type.
    #[error("line {line}: {place}: {key} must be {wanted}")]
    WrongType {
        /// Line.
        line: usize,
        /// The harp, or which string or material.
        place: String,
        /// The key.
        key: String,
        /// What is wanted.
        wanted: &'static str,
    },
    /// A figure outside what is believed: negative, or in another unit.
    #[error(
        "line {line}: {place}: {field} is {value}, which is not believed: it is the {}, from {} \
         to {}; check the unit", field.meaning(), field.believed().start(), field.believed().end()
    )]
    NotBelieved {
        /// Line.
        line: usize,
        /// The harp, or which string or material.
        place: String,
        /// The field.
        field: Field,
        /// The value given.
        value: f64,
    },
    /// A word that is not known.
    #[error("line {line}: {place}: {key} '{word}' is not known; known are {known}")]
    UnknownWord {
        /// Line.
        line: usize,
        /// The harp, or which string or material.
        place: String,
        /// The key.
        key: String,
        /// The word given.
        word: String,
        /// The words that are known.
        known: String,
    },
    /// A text that names no string.
    #[error("line {line}: {place}: {key}: {source}")]
    StringName {
        /// Line.
        line: usize,
        /// The harp, or which string.
        place: String,
        /// The key.
        key: String,
        /// Why not.
        source: StringNameError,
    },
    /// No kind of harp is given.
    #[error("the harp has no kind: add kind = \"pedal\", \"lever\" or \"free\"")]
    NoKind,
    /// The strings are not given, or given twice.
    #[error(
        "line {line}: a harp is given by lowest and highest string, or by a list, strings: give \
         the one or the other"
    )]
    NoCompass {
        /// Line of the kind.
        line: usize,
    },
    /// A string without a name.
    #[error("line {line}: this [[string]] has no name: add name = \"C4\"")]
    NoStringName {
        /// Line.
        line: usize,
    },
    /// A key for another kind of harp.
    #[error("line {line}: a {kind} has no '{key}': take it out")]
    NotOfThisKind {
        /// Line.
        line: usize,
        /// The key.
        key: &'static str,
        /// The kind of this harp.
        kind: HarpKind,
    },
    /// Two figures that cannot both be true.
    #[error("line {line}: {place}: {key}: {reason}")]
    Contradiction {
        /// Line.
        line: usize,
        /// Which string.
        place: String,
        /// The key.
        key: &'static str,
        /// What cannot be.
        reason: &'static str,
    },
    /// Something that no harp of this kind has.
    #[error("line {line}: {source}")]
    Harp {
        /// Line.
        line: usize,
        /// What.
        source: HarpError,
    },
}
