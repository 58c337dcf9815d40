//! Where in the source something stands, so that a change can be written beside it.

/// A place in the source. It orders as the source does within one part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Anchor {
    /// Index in [`Piece::parts`](crate::Piece::parts).
    pub part: usize,
    /// Index in [`Piece::measures`](crate::Piece::measures); the written measure counted from 0.
    pub measure: usize,
    /// MusicXML: the element's place among the element children of its measure, from 0. MIDI: the
    /// event's place in its track, from 0.
    pub element: usize,
    /// MusicXML: the byte of the decoded text ([`musicxml_text`](crate::musicxml_text)) at which
    /// the element begins. MIDI: 0.
    pub byte: usize,
}
