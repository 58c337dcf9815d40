//! From bytes to a piece: what kind of score it is, the bytes themselves say.

use std::borrow::Cow;

use crate::doubts::Doubts;
use crate::text::{MOST_BYTES, decoded};
use crate::{Options, Piece, ScoreError, archive, midi, musicxml};

/// Reads a score: MusicXML (UTF-8, UTF-16 or Latin-1), compressed MusicXML, or a Standard MIDI File,
/// at most 200 million bytes, unpacked too; in UTF-16 and Latin-1 at most 300 million together with
/// the same in UTF-8.
///
/// An error means that nothing could be read; whatever was only doubtful stands in
/// [`Piece::diagnostics`].
///
/// ```
/// let text = "<score-partwise><part-list/><part id='P1'><measure number='1'><note>\
///     <pitch><step>C</step><alter>-1</alter><octave>4</octave></pitch><duration>1</duration>\
///     </note></measure></part></score-partwise>";
/// let piece = score::read(text.as_bytes(), &score::Options::default())?;
/// assert_eq!(piece.notes[0].sounding.pretty(), "C♭4");
/// # Ok::<(), score::ScoreError>(())
/// ```
pub fn read(bytes: &[u8], options: &Options) -> Result<Piece, ScoreError> {
    let mut doubts = Doubts::default();
    if midi::is_midi(bytes) {
        limited(bytes)?;
        return midi::read(bytes, options);
    }
    let text = xml_text(xml_bytes(bytes, &mut doubts)?, &mut doubts)?;
    musicxml::read(&text, doubts, options)
}

/// The decoded text of a MusicXML score, out of its archive where it is in one: what
/// [`Anchor::byte`](crate::Anchor) counts in.
pub fn musicxml_text(bytes: &[u8]) -> Result<String, ScoreError> {
    let mut doubts = Doubts::default();
    xml_text(xml_bytes(bytes, &mut doubts)?, &mut doubts).map(Cow::into_owned)
}

fn limited(bytes: &[u8]) -> Result<(), ScoreError> {
    if bytes.len() > MOST_BYTES {
        return Err(ScoreError::TooLarge { limit: MOST_BYTES });
    }
    if bytes.is_empty() {
        return Err(ScoreError::Empty);
    }
    Ok(())
}

pub(crate) fn xml_bytes<'a>(
    bytes: &'a [u8],
    doubts: &mut Doubts,
) -> Result<Cow<'a, [u8]>, ScoreError> {
    limited(bytes)?;
    if bytes.starts_with(b"PK") {
        archive::score_in(bytes, doubts).map(Cow::Owned)
    } else {
        Ok(Cow::Borrowed(bytes))
    }
}

/// The text of bytes. What is unpacked and decoded is not kept in both forms.
pub(crate) fn xml_text<'a>(
    bytes: Cow<'a, [u8]>,
    doubts: &mut Doubts,
) -> Result<Cow<'a, str>, ScoreError> {
    // what does not begin as XML does is not worth decoding
    let begins = |first: &[u8]| {
        let signs = first
            .iter()
            .filter(|byte| !matches!(byte, 0 | 0xEF | 0xBB | 0xBF | 0xFE | 0xFF));
        signs.copied().find(|byte| !byte.is_ascii_whitespace()) == Some(b'<')
    };
    if !begins(&bytes[..bytes.len().min(4096)]) {
        return Err(ScoreError::Unknown);
    }
    match bytes {
        Cow::Borrowed(bytes) => decoded(bytes, doubts),
        Cow::Owned(bytes) => match String::from_utf8(bytes) {
            Ok(mut text) => {
                if text.starts_with('\u{feff}') {
                    text.remove(0);
                }
                Ok(Cow::Owned(text))
            }
            Err(error) => {
                decoded(error.as_bytes(), doubts).map(|text| Cow::Owned(text.into_owned()))
            }
        },
    }
}
