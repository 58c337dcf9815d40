//! Compressed MusicXML (.mxl): a ZIP archive whose container names the score. Only these two
//! files are unpacked, each into room that is limited beforehand.

use miniz_oxide::inflate::decompress_slice_iter_to_slice;
use rawzip::{CompressionMethod, ZipArchive, ZipSliceArchive};

use crate::doubts::Doubts;
use crate::text::MOST_BYTES;
use crate::{Doubt, ScoreError};

/// The container's place, and the most it may hold (both MusicXML 4.0, 'Compressed .mxl files';
/// the limit is ours).
const CONTAINER: &str = "META-INF/container.xml";
const MOST_CONTAINER: usize = 65_536;
/// Most files of an archive that are looked at.
const MOST_FILES: usize = 10_000;

/// The bytes of the score in an archive.
pub(crate) fn score_in(bytes: &[u8], doubts: &mut Doubts) -> Result<Vec<u8>, ScoreError> {
    let archive = ZipArchive::from_slice(bytes).map_err(|error| damaged(&error))?;
    let names = names(&archive)?;
    let path = if names.iter().any(|name| name == CONTAINER) {
        let container = unpacked(&archive, CONTAINER, MOST_CONTAINER)?;
        let container = crate::text::decoded(&container, doubts)?;
        root_file(&container)?
    } else {
        let taken = names.iter().find(|name| looks_like_a_score(name));
        let taken = taken
            .ok_or_else(|| archive_error("there is no score in it"))?
            .clone();
        let told = taken.clone();
        doubts.add(None, Doubt::NoContainer { taken: told });
        taken
    };
    unpacked(&archive, &path, MOST_BYTES)
}

type Archive<'a> = ZipSliceArchive<&'a [u8]>;

fn names(archive: &Archive<'_>) -> Result<Vec<String>, ScoreError> {
    let mut names = Vec::new();
    let mut entries = archive.entries();
    while let Some(entry) = entries.next_entry().map_err(|error| damaged(&error))? {
        if names.len() >= MOST_FILES {
            return Err(ScoreError::TooMany {
                limit: MOST_FILES,
                what: "files",
            });
        }
        names.push(String::from_utf8_lossy(entry.file_path().as_ref()).into_owned());
    }
    Ok(names)
}

fn looks_like_a_score(name: &str) -> bool {
    let lower = name.to_lowercase();
    let score = lower.ends_with(".musicxml") || lower.ends_with(".xml");
    score && !lower.starts_with("meta-inf/") && !lower.contains("__macosx")
}

/// The path of the first root file: the score itself, by the standard.
fn root_file(container: &str) -> Result<String, ScoreError> {
    let document = roxmltree::Document::parse(container)
        .map_err(|_| archive_error("its container cannot be read"))?;
    let path = document
        .descendants()
        .filter(|element| element.tag_name().name() == "rootfile")
        .find_map(|element| element.attribute("full-path"))
        .ok_or_else(|| archive_error("its container names no score"))?;
    let climbs = path.split(['/', '\\']).any(|step| step == "..")
        || path.starts_with(['/', '\\'])
        || path.contains(':');
    if climbs {
        let path = path.chars().take(100).collect();
        return Err(ScoreError::Outside { path });
    }
    Ok(path.strip_prefix("./").unwrap_or(path).to_owned())
}

/// One file of an archive. What claims or turns out to be larger than `most` bytes is refused.
fn unpacked(archive: &Archive<'_>, name: &str, most: usize) -> Result<Vec<u8>, ScoreError> {
    let mut entries = archive.entries();
    while let Some(entry) = entries.next_entry().map_err(|error| damaged(&error))? {
        if entry.file_path().as_ref() != name.as_bytes() {
            continue;
        }
        let size = entry.uncompressed_size_hint();
        let too_large = || ScoreError::TooLarge { limit: most };
        let size = usize::try_from(size).map_err(|_| too_large())?;
        if size > most {
            return Err(too_large());
        }
        let method = entry.compression_method();
        let data = archive
            .get_entry(entry.wayfinder())
            .map_err(|error| damaged(&error))?;
        let unpacked = inflated(data.data(), method, size)?;
        let found = rawzip::crc32(&unpacked);
        let expected = data.claim_verifier().crc;
        return if found == expected {
            Ok(unpacked)
        } else {
            Err(archive_error("its check sum is wrong"))
        };
    }
    let path = name.chars().take(100).collect();
    Err(ScoreError::Outside { path })
}

fn inflated(data: &[u8], method: CompressionMethod, size: usize) -> Result<Vec<u8>, ScoreError> {
    match method {
        CompressionMethod::STORE if data.len() == size => Ok(data.to_vec()),
        CompressionMethod::DEFLATE => {
            let mut room = vec![0; size];
            let pieces = std::iter::once(data);
            match decompress_slice_iter_to_slice(&mut room, pieces, false, true) {
                Ok(length) if length == size => Ok(room),
                _ => Err(archive_error("it holds more or less than it says")),
            }
        }
        _ => Err(archive_error("it is packed in a way that is not read")),
    }
}

fn damaged(error: &rawzip::Error) -> ScoreError {
    archive_error(&error.to_string())
}

fn archive_error(why: &str) -> ScoreError {
    ScoreError::Archive {
        why: why.to_owned(),
    }
}
