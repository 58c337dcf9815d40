//! What the reader may choose.

/// How a score is to be read. The default finds the harp's part, and takes a note marked as a
/// harmonic for the string.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Options {
    /// Which part.
    pub part: WhichPart,
    /// What a note marked as a harmonic is, where the source does not say.
    pub harmonics: Harmonics,
}

/// Which part of a score is read.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub enum WhichPart {
    /// The harp's; where none is named so, the only part, or the first with two staves, or two
    /// parts of one staff as two hands. A diagnostic says which.
    #[default]
    Harp,
    /// The part with this id or number from 1, or whose name contains this text, capitals aside.
    Named(String),
    /// All of them together.
    All,
}

/// What a note marked as a harmonic is, where the source gives no base, touching or sounding mark.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Harmonics {
    /// The string that is plucked; it sounds an octave higher.
    #[default]
    String,
    /// What sounds; the string is an octave lower.
    Sounding,
}
