//! What stands before the music: title, composer, and the list of parts.

use std::collections::BTreeMap;

use super::element::{Element, child, children, parse, text};
use super::skeleton::PartText;
use crate::Part;
use crate::part::names_a_harp;

/// MIDI's program 47, counted from 1, is the orchestral harp (General MIDI, level 1).
const HARP_PROGRAM: &str = "47";
/// Longest head that is read, in bytes.
const MOST_BYTES: usize = 20_000_000;
/// Most characters of a name or title.
const LONGEST_NAME: usize = 200;

/// The head of a score.
#[derive(Debug, Default)]
pub(crate) struct Head {
    pub(crate) title: String,
    pub(crate) composer: String,
    parts: Vec<Part>,
    /// Places in the list, by id.
    ids: BTreeMap<String, usize>,
}

impl Head {
    /// Reads the text from the root's tag to the first part or measure. The error is said in a few
    /// words.
    pub(crate) fn read(head: &str, root: &str) -> Result<Self, String> {
        if head.len() > MOST_BYTES {
            return Err("it is too long".to_owned());
        }
        let closed = format!("{head}</{root}>");
        parse(&closed, |root, _| {
            let parts: Vec<Part> = child(root, "part-list")
                .map(|list| children(list, "score-part").map(part).collect())
                .unwrap_or_default();
            let ids = parts.iter().enumerate().rev();
            Self {
                title: title(root),
                composer: composer(root),
                ids: ids.map(|(place, part)| (part.id.clone(), place)).collect(),
                parts,
            }
        })
    }

    /// Where a part stands in the list; those that are not in it come last.
    pub(crate) fn place(&self, id: &str) -> usize {
        self.ids.get(id).copied().unwrap_or(usize::MAX)
    }

    /// All that is known of a part.
    pub(crate) fn part(&self, text: &str, music: &PartText) -> Part {
        let listed = self.parts.get(self.place(&music.id));
        let mut part = listed.cloned().unwrap_or_else(|| Part {
            id: music.id.clone(),
            name: String::new(),
            instruments: Vec::new(),
            staves: 1,
            is_harp: false,
        });
        part.staves = staves(text, music);
        part
    }
}

/// The staves that the first measures speak of.
fn staves(text: &str, part: &PartText) -> u32 {
    let first = part.measures.iter().take(2).filter_map(|measure| {
        let music = &text[measure.music.start as usize..measure.music.end as usize];
        let (_, rest) = music.split_once("<staves>")?;
        rest.split('<').next()?.trim().parse::<u32>().ok()
    });
    first.max().unwrap_or(1).clamp(1, 16)
}

fn title(root: Element<'_, '_>) -> String {
    let work = child(root, "work").and_then(|work| text(work, "work-title"));
    let title = work.filter(|title| !title.is_empty());
    let title = title.or_else(|| text(root, "movement-title"));
    short(title.unwrap_or_default())
}

fn composer(root: Element<'_, '_>) -> String {
    let identification = child(root, "identification");
    let creators = identification
        .into_iter()
        .flat_map(|identification| children(identification, "creator"));
    let composer = creators
        .filter(|creator| creator.attribute("type") == Some("composer"))
        .find_map(|creator| creator.text());
    short(composer.unwrap_or_default())
}

fn part(listed: Element<'_, '_>) -> Part {
    let name = short(text(listed, "part-name").unwrap_or_default());
    let mut instruments = Vec::new();
    for instrument in children(listed, "score-instrument") {
        for name in ["instrument-name", "instrument-sound"] {
            instruments.extend(text(instrument, name).map(short));
        }
    }
    let program = children(listed, "midi-instrument")
        .any(|midi| text(midi, "midi-program") == Some(HARP_PROGRAM));
    let named = instruments
        .iter()
        .chain([&name])
        .any(|name| names_a_harp(name));
    Part {
        id: listed.attribute("id").unwrap_or_default().to_owned(),
        is_harp: named || program,
        name,
        instruments,
        staves: 1,
    }
}

fn short(text: &str) -> String {
    let words: Vec<&str> = text.split_whitespace().collect();
    words.join(" ").chars().take(LONGEST_NAME).collect()
}
