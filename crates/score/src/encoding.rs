//! How a score's text stands in bytes, so that something can be put into it and every other byte stays.

use std::iter;

/// How text is written as bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Encoding {
    /// UTF-8, and nothing in it that is not.
    Utf8,
    /// UTF-16, the lower byte first.
    Utf16Little,
    /// UTF-16, the higher byte first.
    Utf16Big,
    /// Latin-1, or its kin.
    Latin,
    /// Meant as UTF-8, with bytes in it that are not.
    Damaged,
}

impl Encoding {
    /// The encoding of bytes, and how many of them are the byte-order mark.
    pub(crate) fn of(bytes: &[u8]) -> (Self, usize) {
        match bytes {
            [0xFF, 0xFE, ..] => (Self::Utf16Little, 2),
            [0xFE, 0xFF, ..] => (Self::Utf16Big, 2),
            // without a mark, the first sign tells
            [b'<', 0, ..] => (Self::Utf16Little, 0),
            [0, b'<', ..] => (Self::Utf16Big, 0),
            _ => {
                let mark = if bytes.starts_with(b"\xEF\xBB\xBF") {
                    3
                } else {
                    0
                };
                (Self::of_eight_bits(&bytes[mark..]), mark)
            }
        }
    }

    fn of_eight_bits(bytes: &[u8]) -> Self {
        if std::str::from_utf8(bytes).is_ok() {
            Self::Utf8
        } else if says_latin(bytes) {
            Self::Latin
        } else {
            Self::Damaged
        }
    }
}

/// Texts as they are put into the bytes, and where: each stands with the byte of the decoded text
/// before which it goes, in order. A sign that the encoding may lack is put in by its number.
pub(crate) fn in_bytes(bytes: &[u8], insertions: &[(usize, String)]) -> Vec<(usize, Vec<u8>)> {
    let (encoding, mark) = Encoding::of(bytes);
    let wanted: Vec<usize> = insertions.iter().map(|(at, _)| *at).collect();
    let places = places(&bytes[mark..], encoding, &wanted);
    let numbers = match encoding {
        Encoding::Utf16Little | Encoding::Utf16Big => false,
        Encoding::Utf8 => !says_utf8(&bytes[mark..]),
        Encoding::Latin | Encoding::Damaged => true,
    };
    let places = places.iter().map(|place| (mark + place).min(bytes.len()));
    let added = insertions
        .iter()
        .map(|(_, text)| encoded(text, encoding, numbers));
    places.zip(added).collect()
}

/// Where bytes of the decoded text, in ascending order, begin in the source after its mark.
fn places(bytes: &[u8], encoding: Encoding, wanted: &[usize]) -> Vec<usize> {
    if encoding == Encoding::Utf8 {
        return wanted.to_vec();
    }
    let mut found = Vec::with_capacity(wanted.len());
    let (mut source, mut text) = (0, 0);
    let mut steps = steps(bytes, encoding);
    for &wanted in wanted {
        while text < wanted
            && let Some((in_source, in_text)) = steps.next()
        {
            // a step of many signs is one of single bytes, and may be left in its middle
            source += in_source;
            text += in_text;
        }
        found.push(source);
    }
    found
}

/// Sign by sign, the bytes it takes in the source and in the decoded text.
fn steps(bytes: &[u8], encoding: Encoding) -> Box<dyn Iterator<Item = (usize, usize)> + '_> {
    match encoding {
        Encoding::Utf16Little => Box::new(steps_of_units(bytes, u16::from_le_bytes)),
        Encoding::Utf16Big => Box::new(steps_of_units(bytes, u16::from_be_bytes)),
        Encoding::Latin | Encoding::Utf8 => {
            Box::new(bytes.iter().map(|&byte| (1, char::from(byte).len_utf8())))
        }
        Encoding::Damaged => Box::new(bytes.utf8_chunks().flat_map(|chunk| {
            let valid = iter::repeat_n((1, 1), chunk.valid().len());
            let invalid = chunk.invalid().len();
            let replaced =
                (invalid > 0).then_some((invalid, char::REPLACEMENT_CHARACTER.len_utf8()));
            valid.chain(replaced)
        })),
    }
}

fn steps_of_units(
    bytes: &[u8],
    unit: impl Fn([u8; 2]) -> u16,
) -> impl Iterator<Item = (usize, usize)> {
    let units = bytes.as_chunks::<2>().0.iter().map(move |pair| unit(*pair));
    char::decode_utf16(units).map(|sign| match sign {
        Ok(sign) => (2 * sign.len_utf16(), sign.len_utf8()),
        Err(_) => (2, char::REPLACEMENT_CHARACTER.len_utf8()),
    })
}

fn encoded(text: &str, encoding: Encoding, numbers: bool) -> Vec<u8> {
    match encoding {
        Encoding::Utf16Little => text.encode_utf16().flat_map(u16::to_le_bytes).collect(),
        Encoding::Utf16Big => text.encode_utf16().flat_map(u16::to_be_bytes).collect(),
        _ if numbers => numbered(text).into_bytes(),
        _ => text.as_bytes().to_vec(),
    }
}

/// The text with every sign beyond ASCII as XML's reference to its number.
fn numbered(text: &str) -> String {
    let mut numbered = String::with_capacity(text.len());
    for sign in text.chars() {
        if sign.is_ascii() {
            numbered.push(sign);
        } else {
            numbered.push_str(&format!("&#{};", u32::from(sign)));
        }
    }
    numbered
}

/// Whether the XML declaration names Latin-1 or its kin.
fn says_latin(bytes: &[u8]) -> bool {
    let declaration = declaration(bytes);
    declaration.contains("iso-8859-1") || declaration.contains("windows-1252")
}

/// Whether the XML declaration names UTF-8, or nothing, which means the same.
fn says_utf8(bytes: &[u8]) -> bool {
    let declaration = declaration(bytes);
    let starts = declaration.trim_start().starts_with("<?xml");
    !starts || !declaration.contains("encoding") || declaration.contains("utf-8")
}

fn declaration(bytes: &[u8]) -> String {
    let first = &bytes[..bytes.len().min(200)];
    let declaration = String::from_utf8_lossy(first).to_lowercase();
    declaration
        .split("?>")
        .next()
        .unwrap_or_default()
        .to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn with_insertions(before: &[u8], insertions: &[(usize, String)]) -> Vec<u8> {
        let mut whole = before.to_vec();
        for (place, added) in in_bytes(before, insertions).into_iter().rev() {
            whole.splice(place..place, added);
        }
        whole
    }

    fn check(before: &[u8], at: usize, added: &str, expected: &[u8]) {
        let found = with_insertions(before, &[(at, added.to_owned())]);
        assert_eq!(found, expected, "{}", String::from_utf8_lossy(&found));
    }

    fn utf16(text: &str, order: fn(u16) -> [u8; 2]) -> Vec<u8> {
        text.encode_utf16().flat_map(order).collect()
    }

    #[test]
    fn text_is_put_in_before_the_byte_of_the_decoded_text() {
        check("<é/>".as_bytes(), 3, "♯", "<é♯/>".as_bytes());
        check(
            "\u{feff}<é/>".as_bytes(),
            3,
            "♯",
            "\u{feff}<é♯/>".as_bytes(),
        );
        for order in [u16::to_le_bytes, u16::to_be_bytes] {
            let mut odd = utf16("\u{feff}<𝄞é/>", order);
            odd.push(b'x');
            let mut expected = utf16("\u{feff}<𝄞é♯/>", order);
            expected.push(b'x');
            check(&odd, 7, "♯", &expected);
            check(&utf16("<é/>", order), 3, "♯", &utf16("<é♯/>", order));
        }
    }

    #[test]
    fn what_the_encoding_may_lack_is_put_in_by_its_number() {
        let declared = |inside: &str| {
            let text = format!("<?xml version='1.0' encoding='ISO-8859-1'?><{inside}/>");
            text.chars()
                .map(|c| u8::try_from(u32::from(c)).unwrap())
                .collect::<Vec<u8>>()
        };
        check(&declared("é"), 46, "♯", &declared("é&#9839;"));
        check(&declared("e"), 45, "♯", &declared("e&#9839;"));
        check(b"<\xE9\xE9/>", 7, "♯", b"<\xE9\xE9&#9839;/>");
    }

    #[test]
    fn several_keep_their_order() {
        let two = [
            (1, "b".to_owned()),
            (1, "c".to_owned()),
            (2, "d".to_owned()),
        ];
        assert_eq!(with_insertions(b"ax", &two), b"abcxd");
    }
}
