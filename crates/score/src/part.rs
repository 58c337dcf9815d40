//! The parts of a score, and which of them is the harp's.

use crate::{Doubt, ScoreError, WhichPart};

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

impl Part {
    /// Its name, or its id where it has none.
    pub fn label(&self) -> &str {
        if self.name.is_empty() {
            &self.id
        } else {
            &self.name
        }
    }
}

/// Whether a name is a harp's in English, German, French, Italian or Spanish; a harpsichord's is not.
pub(crate) fn names_a_harp(name: &str) -> bool {
    let name = name.to_lowercase();
    let mut words = name.split(|c: char| !c.is_alphanumeric());
    words.any(|word| {
        (word.starts_with("harp") && !word.starts_with("harps") || word == "harps")
            || word.starts_with("harfe")
            || word.ends_with("harfe")
            || matches!(word, "arpa" | "arpe" | "arpas")
    })
}

/// The parts that are meant, and what was doubtful in finding them.
pub(crate) fn meant(
    parts: &[Part],
    which: &WhichPart,
) -> Result<(Vec<usize>, Option<Doubt>), ScoreError> {
    match which {
        WhichPart::All => Ok(((0..parts.len()).collect(), None)),
        WhichPart::Named(asked) => named(parts, asked),
        WhichPart::Harp => Ok(harp(parts)),
    }
}

fn named(parts: &[Part], asked: &str) -> Result<(Vec<usize>, Option<Doubt>), ScoreError> {
    let wanted = asked.trim().to_lowercase();
    let exact = parts
        .iter()
        .position(|part| part.id == asked || part.name.to_lowercase() == wanted);
    let number = || {
        let number = wanted.parse::<usize>().ok()?.checked_sub(1)?;
        (number < parts.len()).then_some(number)
    };
    if let Some(part) = exact.or_else(number) {
        return Ok((vec![part], None));
    }
    let holds = |part: &Part| {
        let mut names = part.instruments.iter().chain([&part.name]);
        !wanted.is_empty() && names.any(|name| name.to_lowercase().contains(&wanted))
    };
    let found: Vec<usize> = (0..parts.len()).filter(|&at| holds(&parts[at])).collect();
    match first_of(parts, &found) {
        Some(found) => Ok(found),
        None => Err(ScoreError::NoSuchPart {
            asked: asked.to_owned(),
            parts: parts.to_vec(),
        }),
    }
}

fn harp(parts: &[Part]) -> (Vec<usize>, Option<Doubt>) {
    let harps: Vec<usize> = (0..parts.len()).filter(|&at| parts[at].is_harp).collect();
    if let Some(found) = first_of(parts, &harps) {
        return found;
    }
    if parts.len() == 1 {
        return (vec![0], None);
    }
    let two_staves = parts.iter().position(|part| part.staves == 2);
    let taken = match two_staves {
        Some(part) => vec![part],
        None if parts.len() == 2 => vec![0, 1],
        None => vec![0],
    };
    let doubt = Doubt::PartGuessed {
        taken: labels(parts, &taken),
    };
    (taken, Some(doubt))
}

/// The first of several, and that there are others.
fn first_of(parts: &[Part], found: &[usize]) -> Option<(Vec<usize>, Option<Doubt>)> {
    let (&first, others) = found.split_first()?;
    let doubt = (!others.is_empty()).then(|| Doubt::SeveralParts {
        taken: parts[first].label().to_owned(),
        others: labels(parts, others),
    });
    Some((vec![first], doubt))
}

/// The names of some parts, as a diagnostic lists them.
pub(crate) fn labels(parts: &[Part], which: &[usize]) -> String {
    let labels = which
        .iter()
        .take(40)
        .filter_map(|&at| parts.get(at))
        .map(Part::label);
    labels.collect::<Vec<_>>().join(", ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(id: &str, name: &str, staves: u32) -> Part {
        Part {
            id: id.to_owned(),
            name: name.to_owned(),
            instruments: Vec::new(),
            staves,
            is_harp: names_a_harp(name),
        }
    }

    #[test]
    fn a_harp_is_known_by_its_name_in_several_languages() {
        for name in [
            "Harp",
            "HARPS",
            "Harpe 1",
            "Arpa",
            "2 Harfen",
            "Pedalharfe",
            "pluck.harp",
            "Lever Harp",
        ] {
            assert!(names_a_harp(name), "{name}");
        }
        for name in [
            "",
            "Harpsichord",
            "F sharp",
            "Sharp",
            "Piano",
            "keyboard.harpsichord",
            "Arpeggiator",
        ] {
            assert!(!names_a_harp(name), "{name}");
        }
    }

    #[track_caller]
    fn check(parts: &[Part], which: WhichPart, expected: &[usize], doubtful: bool) {
        let (found, doubt) = meant(parts, &which).unwrap();
        assert_eq!(
            (found.as_slice(), doubt.is_some()),
            (expected, doubtful),
            "{which:?}"
        );
    }

    #[test]
    fn the_harp_is_found_or_a_guess_is_said() {
        let orchestra = [
            part("P1", "Flute", 1),
            part("P2", "Celesta", 2),
            part("P3", "Harp 1", 2),
            part("P4", "Harp 2", 2),
        ];
        check(&orchestra, WhichPart::Harp, &[2], true);
        check(&orchestra[..3], WhichPart::Harp, &[2], false);
        check(&orchestra[..2], WhichPart::Harp, &[1], true);
        check(&orchestra[..1], WhichPart::Harp, &[0], false);
        check(
            &[part("a", "", 1), part("b", "", 1)],
            WhichPart::Harp,
            &[0, 1],
            true,
        );
        check(&orchestra, WhichPart::All, &[0, 1, 2, 3], false);
    }

    #[test]
    fn a_part_can_be_named_by_id_number_or_a_piece_of_its_name() {
        let parts = [
            part("P1", "Flute", 1),
            part("P2", "Harp I", 2),
            part("P3", "Harp II", 2),
        ];
        let named = |text: &str| WhichPart::Named(text.to_owned());
        check(&parts, named("P3"), &[2], false);
        check(&parts, named("harp i"), &[1], false);
        check(&parts, named("harp"), &[1], true);
        check(&parts, named("3"), &[2], false);
        let error = meant(&parts, &named("oboe")).unwrap_err().to_string();
        assert!(
            error.contains("'oboe'") && error.contains("2 Harp I"),
            "{error}"
        );
        assert!(meant(&parts, &named("0")).is_err());
        assert!(meant(&parts, &named("")).is_err());
    }
}
