//! Compressed MusicXML, whole and damaged.

use crate::written::{doubts, note, piece, score};
use score::{Options, ScoreError, musicxml_text, read};

/// One file of an archive that is made here.
pub(crate) struct Entry<'a> {
    pub(crate) name: &'a str,
    pub(crate) content: &'a [u8],
    pub(crate) packed: bool,
    /// What it claims to be unpacked, where that is not the truth.
    pub(crate) claims: Option<u32>,
}

/// A ZIP archive (PKWARE's APPNOTE: local headers, central directory, end of it).
pub(crate) fn archive(entries: &[Entry<'_>]) -> Vec<u8> {
    let (mut bytes, mut directory) = (Vec::new(), Vec::new());
    for entry in entries {
        let packed = miniz_oxide::deflate::compress_to_vec(entry.content, 6);
        let (method, data) = if entry.packed {
            (8_u16, packed.as_slice())
        } else {
            (0, entry.content)
        };
        let size = entry
            .claims
            .unwrap_or(u32::try_from(entry.content.len()).unwrap());
        let mut fields = Vec::new();
        for field in [20_u16, 0, method, 0, 0] {
            fields.extend(field.to_le_bytes());
        }
        fields.extend(crc32(entry.content).to_le_bytes());
        fields.extend(u32::try_from(data.len()).unwrap().to_le_bytes());
        fields.extend(size.to_le_bytes());
        fields.extend(u16::try_from(entry.name.len()).unwrap().to_le_bytes());
        fields.extend([0, 0]);
        let offset = u32::try_from(bytes.len()).unwrap();
        directory.extend(b"PK\x01\x02\x14\x00");
        directory.extend(&fields);
        directory.extend([0; 10]);
        directory.extend(offset.to_le_bytes());
        directory.extend(entry.name.bytes());
        bytes.extend(b"PK\x03\x04");
        bytes.extend(fields);
        bytes.extend(entry.name.bytes());
        bytes.extend(data);
    }
    let (begin, length) = (bytes.len(), directory.len());
    bytes.extend(directory);
    bytes.extend(b"PK\x05\x06\0\0\0\0");
    let count = u16::try_from(entries.len()).unwrap();
    bytes.extend([count.to_le_bytes(), count.to_le_bytes()].concat());
    bytes.extend(u32::try_from(length).unwrap().to_le_bytes());
    bytes.extend(u32::try_from(begin).unwrap().to_le_bytes());
    bytes.extend([0, 0]);
    bytes
}

fn crc32(bytes: &[u8]) -> u32 {
    let of_one = |byte: u32| {
        (0..8).fold(byte, |sum, _| {
            (sum >> 1) ^ (0xEDB8_8320 & (sum & 1).wrapping_neg())
        })
    };
    let table: Vec<u32> = (0..256).map(of_one).collect();
    !bytes.iter().fold(!0_u32, |sum, &byte| {
        table[usize::from(byte ^ sum.to_le_bytes()[0])] ^ (sum >> 8)
    })
}

/// An archive with a container that names `path`, and a score at `at`.
pub(crate) fn score_archive(path: &str, at: &str, score: &[u8], packed: bool) -> Vec<u8> {
    let container =
        format!("<container><rootfiles><rootfile full-path=\"{path}\"/></rootfiles></container>");
    archive(&[
        Entry {
            name: "META-INF/container.xml",
            content: container.as_bytes(),
            packed,
            claims: None,
        },
        Entry {
            name: at,
            content: score,
            packed,
            claims: None,
        },
    ])
}

#[test]
fn a_compressed_score_reads_as_the_plain_one() {
    let text = score(&[&note("C4", 4, "")]);
    for packed in [true, false] {
        let bytes = score_archive(
            "in/score.musicxml",
            "in/score.musicxml",
            text.as_bytes(),
            packed,
        );
        assert_eq!(read(&bytes, &Options::default()).unwrap(), piece(&text));
        assert_eq!(musicxml_text(&bytes).unwrap(), text);
    }
}

#[test]
fn a_path_that_climbs_out_is_refused() {
    let text = score(&[&note("C4", 4, "")]);
    for path in [
        "../score.xml",
        "a/../../score.xml",
        "/etc/passwd",
        "..\\score.xml",
        "C:/score.xml",
        "file:///x",
    ] {
        let bytes = score_archive(path, path, text.as_bytes(), true);
        let error = read(&bytes, &Options::default()).unwrap_err();
        assert_eq!(
            error,
            ScoreError::Outside {
                path: path.to_owned()
            }
        );
    }
}

#[test]
fn a_score_that_is_not_in_it_is_named() {
    let bytes = score_archive("a.xml", "b.xml", b"x", true);
    let error = read(&bytes, &Options::default()).unwrap_err();
    assert_eq!(
        error,
        ScoreError::Outside {
            path: "a.xml".to_owned()
        }
    );
}

#[test]
fn without_a_container_the_first_score_is_taken_and_said() {
    let text = score(&[&note("C4", 4, "")]);
    let bytes = archive(&[
        Entry {
            name: "image.png",
            content: b"x",
            packed: false,
            claims: None,
        },
        Entry {
            name: "score.xml",
            content: text.as_bytes(),
            packed: true,
            claims: None,
        },
    ]);
    let piece = read(&bytes, &Options::default()).unwrap();
    assert!(doubts(&piece).contains("'score.xml' was taken"));
}

#[test]
fn a_size_that_is_not_the_truth_is_refused() {
    let text = score(&[&note("C4", 4, "")]);
    for claims in [10, 100_000] {
        let bytes = archive(&[Entry {
            name: "score.xml",
            content: text.as_bytes(),
            packed: true,
            claims: Some(claims),
        }]);
        let error = read(&bytes, &Options::default()).unwrap_err().to_string();
        assert!(error.contains("more or less than it says"), "{error}");
    }
}

#[test]
fn a_damaged_archive_is_refused() {
    let text = score(&[&note("C4", 4, "")]);
    let whole = score_archive("s.xml", "s.xml", text.as_bytes(), true);
    for length in 2..whole.len() {
        assert!(
            read(&whole[..length], &Options::default()).is_err(),
            "{length}"
        );
    }
    let mut flipped = whole.clone();
    let at = whole.windows(5).rposition(|five| five == b"s.xml").unwrap() - 200;
    flipped[at] ^= 0xFF;
    assert!(read(&flipped, &Options::default()).is_err());
}
