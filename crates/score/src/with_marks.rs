//! Marks written into a score, and nothing else changed.

use std::borrow::Cow;

use crate::doubts::Doubts;
use crate::read::{xml_bytes, xml_text};
use crate::{NewMark, Piece, ScoreError, encoding, midi, musicxml};

/// The bytes of a MusicXML score with marks written into it.
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
/// let marked = String::from_utf8_lossy(&with_marks(source, &piece, &[mark])?).into_owned();
/// assert!(marked.contains("<words>F♯</words></direction-type></direction><note>"));
/// # Ok::<(), score::ScoreError>(())
/// ```
pub fn with_marks(bytes: &[u8], piece: &Piece, marks: &[NewMark]) -> Result<Vec<u8>, ScoreError> {
    if midi::is_midi(bytes) {
        return Err(ScoreError::NoMarksInMidi);
    }
    let mut doubts = Doubts::default();
    let source = xml_bytes(bytes, &mut doubts)?;
    // the text is let go before the answer is made: both together would take much room
    let insertions = {
        let text = xml_text(Cow::Borrowed(&*source), &mut doubts)?;
        musicxml::insertions(&text, piece, marks)?
    };
    Ok(encoding::with_insertions(&source, &insertions))
}
