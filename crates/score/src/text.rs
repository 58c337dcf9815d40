//! From bytes to text: UTF-8, UTF-16, or Latin-1 where the text says so.

use std::borrow::Cow;

use crate::doubts::Doubts;
use crate::encoding::Encoding;
use crate::{Doubt, ScoreError};

/// Most bytes of a score, compressed or not.
pub(crate) const MOST_BYTES: usize = 200_000_000;

/// Most bytes of a score and its text together, where its encoding asks for both.
const MOST_TOGETHER: usize = 300_000_000;

/// The text of bytes, without its byte-order mark. What cannot be read is replaced, with a doubt.
pub(crate) fn decoded<'a>(
    bytes: &'a [u8],
    doubts: &mut Doubts,
) -> Result<Cow<'a, str>, ScoreError> {
    let (encoding, mark) = Encoding::of(bytes);
    let bytes = &bytes[mark..];
    match encoding {
        Encoding::Utf8 => match std::str::from_utf8(bytes) {
            Ok(text) => Ok(Cow::Borrowed(text)),
            Err(_) => damaged(bytes, doubts),
        },
        Encoding::Utf16Little => utf16(bytes, u16::from_le_bytes, doubts).map(Cow::Owned),
        Encoding::Utf16Big => utf16(bytes, u16::from_be_bytes, doubts).map(Cow::Owned),
        Encoding::Latin => latin(bytes).map(Cow::Owned),
        Encoding::Damaged => damaged(bytes, doubts),
    }
}

fn utf16(
    bytes: &[u8],
    unit: impl Fn([u8; 2]) -> u16 + Copy,
    doubts: &mut Doubts,
) -> Result<String, ScoreError> {
    let units = || bytes.as_chunks::<2>().0.iter().map(|pair| unit(*pair));
    let signs = || char::decode_utf16(units());
    let length: usize = signs().map(|sign| sign.map_or(3, char::len_utf8)).sum();
    limited(bytes, length)?;
    let mut text = String::with_capacity(length);
    let mut whole = bytes.len().is_multiple_of(2);
    for sign in signs() {
        whole &= sign.is_ok();
        text.push(sign.unwrap_or(char::REPLACEMENT_CHARACTER));
    }
    if !whole {
        doubts.add(None, Doubt::Encoding);
    }
    Ok(text)
}

fn latin(bytes: &[u8]) -> Result<String, ScoreError> {
    let signs = || bytes.iter().map(|&byte| char::from(byte));
    let length = signs().map(char::len_utf8).sum();
    limited(bytes, length)?;
    let mut text = String::with_capacity(length);
    text.extend(signs());
    Ok(text)
}

fn damaged<'a>(bytes: &'a [u8], doubts: &mut Doubts) -> Result<Cow<'a, str>, ScoreError> {
    doubts.add(None, Doubt::Encoding);
    let replaced = char::REPLACEMENT_CHARACTER.len_utf8();
    let length = bytes.utf8_chunks().map(|chunk| {
        let replaced = if chunk.invalid().is_empty() {
            0
        } else {
            replaced
        };
        chunk.valid().len() + replaced
    });
    limited(bytes, length.sum())?;
    Ok(String::from_utf8_lossy(bytes))
}

fn limited(source: &[u8], length: usize) -> Result<(), ScoreError> {
    if source.len() + length > MOST_TOGETHER {
        return Err(ScoreError::TooLarge {
            limit: MOST_TOGETHER,
        });
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(bytes: &[u8], expected: &str, doubtful: bool) {
        let mut doubts = Doubts::default();
        assert_eq!(decoded(bytes, &mut doubts).unwrap(), expected);
        assert_eq!(!doubts.told(&[]).is_empty(), doubtful);
    }

    #[test]
    fn the_byte_order_mark_is_honoured_and_taken_away() {
        let le: Vec<u8> = "\u{feff}<é𝄞/>"
            .encode_utf16()
            .flat_map(u16::to_le_bytes)
            .collect();
        let be: Vec<u8> = "\u{feff}<é𝄞/>"
            .encode_utf16()
            .flat_map(u16::to_be_bytes)
            .collect();
        check(&le, "<é𝄞/>", false);
        check(&be, "<é𝄞/>", false);
        check(&le[2..], "<é𝄞/>", false);
        check(&be[2..], "<é𝄞/>", false);
        check("\u{feff}<é/>".as_bytes(), "<é/>", false);
        check("<é/>".as_bytes(), "<é/>", false);
    }

    #[test]
    fn latin_is_read_where_it_is_declared() {
        check(
            b"<?xml version='1.0' encoding='ISO-8859-1'?><\xE9/>",
            "<?xml version='1.0' encoding='ISO-8859-1'?><é/>",
            false,
        );
        check(b"<\xE9/>", "<\u{fffd}/>", true);
        check(&[0xFF, 0xFE, 0x00, 0xD8, 0x41], "\u{fffd}", true);
    }
}
