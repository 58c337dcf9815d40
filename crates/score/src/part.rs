//! The parts of a score.

/// One part: an instrument in MusicXML; in MIDI a track, or a channel where there is one track.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Part {
    /// Its id in the source (`P1`); in MIDI its place, from 1.
    pub id: String,
    /// Its printed name, or nothing.
    pub name: String,
    /// Names of its instruments and sounds as the source gives them, such as `pluck.harp`.
    pub instruments: Vec<String>,
    /// Its staves, at least 1.
    pub staves: u32,
    /// Whether a name or a sound says that it is a harp.
    pub is_harp: bool,
}
