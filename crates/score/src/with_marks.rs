//! Marks written into a score, and nothing else changed.

use std::borrow::Cow;
use std::iter;

use crate::doubts::Doubts;
use crate::read::{xml_bytes, xml_text};
use crate::{NewMark, Piece, ScoreError, encoding, midi, musicxml};

/// A score with marks written into it.
///
/// It keeps the source and what is added apart, so that a large score need not stand in memory twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Marked<'a> {
    source: Cow<'a, [u8]>,
    /// What is added, each before a byte of the source, in order.
    added: Vec<(usize, Vec<u8>)>,
}

impl Marked<'_> {
    /// The score's bytes, piece by piece, in order.
    pub fn pieces(&self) -> impl Iterator<Item = &[u8]> {
        let ends = self.added.iter().map(|(place, _)| *place);
        let begins = iter::once(0).chain(ends.clone());
        let ends = ends.chain([self.source.len()]);
        let kept = begins
            .zip(ends)
            .map(|(begin, end)| &self.source[begin..end]);
        let added = self.added.iter().map(|(_, added)| &added[..]);
        kept.zip(added.chain([&[][..]]))
            .flat_map(|(kept, added)| [kept, added])
    }

    /// All of the score's bytes.
    pub fn to_vec(&self) -> Vec<u8> {
        self.pieces().flatten().copied().collect()
    }
}

/// A MusicXML score with marks written into it.
///
/// `bytes` is the source (UTF-8, UTF-16 or Latin-1), and `piece` what [`read`](crate::read()) made of
/// it: the marks go into the harp's part, or the first that was read. Each stands before the note
/// that begins at its offset, before the grace notes of that note; where none begins there, it
/// stands at an earlier place with an `<offset>`, which is exact where a decimal number is, else to a
/// millionth of a division. Every other byte is as it was, the encoding and its byte-order mark
/// too. Of a compressed score the score itself is given back, uncompressed. A diagram without
/// letters and words without signs are not written.
///
/// Errors: the source is MIDI, or no score that can be read; the piece was read from another one; a
/// bar that is marked is damaged, an empty tag, or not in that part.
///
/// ```
/// use score::{Fraction, NewMark, NewMarkKind, Options, read, with_marks};
/// let source = b"<score-partwise><part id='P1'><measure number='1'><note><pitch><step>F</step>\
///     <alter>1</alter><octave>4</octave></pitch><duration>1</duration></note></measure></part>\
///     </score-partwise>";
/// let piece = read(source, &Options::default())?;
/// let words = NewMarkKind::Pencilled { words: "F♯".to_owned(), addition: None };
/// let mark = NewMark::between_staves(&piece, 0, Fraction::ZERO, words);
/// let marked = String::from_utf8_lossy(&with_marks(source, &piece, &[mark])?.to_vec()).into_owned();
/// assert!(marked.contains("<words>F♯</words></direction-type></direction><note>"));
/// # Ok::<(), score::ScoreError>(())
/// ```
pub fn with_marks<'a>(
    bytes: &'a [u8],
    piece: &Piece,
    marks: &[NewMark],
) -> Result<Marked<'a>, ScoreError> {
    if midi::is_midi(bytes) {
        return Err(ScoreError::NoMarksInMidi);
    }
    let mut doubts = Doubts::default();
    let source = xml_bytes(bytes, &mut doubts)?;
    let insertions = {
        let text = xml_text(Cow::Borrowed(&*source), &mut doubts)?;
        musicxml::insertions(&text, piece, marks)?
    };
    let added = encoding::in_bytes(&source, &insertions);
    Ok(Marked { source, added })
}
