//! MusicXML: from the text of a score to a piece.

mod alternating;
mod assembled;
mod attributes;
mod barline;
mod chord;
mod cut;
mod damp_glyph;
mod direction;
mod element;
mod gathered;
mod head;
mod insertions;
mod metronome;
mod note_element;
mod part_reader;
mod passage;
mod passage_words;
mod pedal_letters;
mod printed_jump;
mod skeleton;
mod sweep;
mod tempo_change;
mod transposition;
mod written_pitch;

use std::ops::Range;

use crate::doubts::Doubts;
use crate::{Doubt, Hand, Options, Piece, ScoreError, part};
pub(crate) use cut::{CutPart, cut};
use gathered::Gathered;
use head::Head;
pub(crate) use insertions::insertions;
use part_reader::{PartReader, Role};
use skeleton::{MeasureText, PartText, Skeleton, attribute, skeleton};

/// Longest measure that is read, in bytes: some 200,000 notes.
const MOST_MEASURE_BYTES: usize = 50_000_000;

/// Reads a MusicXML text. `doubts` are those that came up on the way to it.
pub(crate) fn read(text: &str, doubts: Doubts, options: &Options) -> Result<Piece, ScoreError> {
    let mut gathered = Gathered {
        doubts,
        ..Gathered::default()
    };
    let (head, parts) = head_and_parts(text, &mut gathered.doubts)?;
    let listed: Vec<_> = parts.iter().map(|part| head.part(text, part)).collect();
    let (chosen, doubt) = part::meant(&listed, &options.part)?;
    if let Some(doubt) = doubt {
        gathered.doubts.add(None, doubt);
    }
    for (place, part) in parts.iter().enumerate() {
        let role = Role {
            part: place,
            name: listed[place].label().to_owned(),
            chosen: chosen.contains(&place),
            hands: hands(&chosen, place, listed[place].staves),
            leads: chosen.first() == Some(&place),
            harmonics: options.harmonics,
        };
        read_part(text, part, role, &mut gathered);
    }
    uneven(&parts, &mut gathered.doubts);
    Ok(assembled::piece(gathered, head, listed, chosen))
}

/// The head, and the parts in the order in which it lists them.
fn head_and_parts(text: &str, doubts: &mut Doubts) -> Result<(Head, Vec<PartText>), ScoreError> {
    let Skeleton {
        head,
        timewise,
        mut parts,
        breaks_off,
        entities,
    } = skeleton(text)?;
    if breaks_off {
        doubts.add(None, Doubt::BreaksOff);
    }
    if entities {
        doubts.add(None, Doubt::Entities);
    }
    let root = if timewise {
        "score-timewise"
    } else {
        "score-partwise"
    };
    let head = Head::read(&text[head], root).unwrap_or_else(|why| {
        doubts.add(None, Doubt::BadHead { why });
        Head::default()
    });
    parts.sort_by_key(|part| head.place(&part.id));
    Ok((head, parts))
}

fn read_part(text: &str, part: &PartText, role: Role, gathered: &mut Gathered) {
    let name = role.name.clone();
    let mut reader = PartReader::new(gathered, role);
    for (place, measure) in part.measures.iter().enumerate() {
        numbered(&text[range(&measure.tag)], place, reader.gathered);
        if measure.music.is_empty() {
            continue;
        }
        let mut ignore = |_: &PartReader<'_>, _: Option<element::Element<'_, '_>>| {};
        if let Err(why) = read_measure(text, measure, place, &mut reader, &mut ignore) {
            let part = name.clone();
            reader
                .gathered
                .doubts
                .add(place, Doubt::BadMeasure { part, why });
        }
    }
}

/// What sees the reader before each element of a measure, and before its end.
type Watch<'w> = dyn FnMut(&PartReader<'_>, Option<element::Element<'_, '_>>) + 'w;

fn read_measure(
    text: &str,
    measure: &MeasureText,
    place: usize,
    reader: &mut PartReader<'_>,
    watch: &mut Watch<'_>,
) -> Result<(), String> {
    if measure.overloaded {
        return Err("an element has too many attributes".to_owned());
    }
    if measure.music.len() > MOST_MEASURE_BYTES {
        return Err("it is too long".to_owned());
    }
    let music = range(&measure.music);
    let start = i64::from(measure.music.start);
    element::parse(&text[music], |element, added| {
        let added = i64::try_from(added).unwrap_or(0);
        reader.measure(place, element, start - added, watch);
    })
}

/// The number and kind of a measure, from the first part that has it.
fn numbered(tag: &str, measure: usize, gathered: &mut Gathered) {
    let bar = gathered.bar(measure);
    if bar.number.is_empty() {
        let number = attribute(tag, "number").unwrap_or_default();
        bar.number = number.chars().take(32).collect();
        bar.implicit = attribute(tag, "implicit").as_deref() == Some("yes");
    }
}

/// Right above left: in one part of two staves, or in two parts that were taken as two hands.
fn hands(chosen: &[usize], place: usize, staves: u32) -> (Hand, Hand) {
    match *chosen {
        [right, _] if staves == 1 && place == right => (Hand::Right, Hand::Right),
        [_, left] if staves == 1 && place == left => (Hand::Left, Hand::Left),
        _ if staves == 2 => (Hand::Right, Hand::Left),
        _ => (Hand::Unsaid, Hand::Unsaid),
    }
}

fn uneven(parts: &[PartText], doubts: &mut Doubts) {
    let counts = || parts.iter().map(|part| part.measures.len());
    let (least, most) = (counts().min().unwrap_or(0), counts().max().unwrap_or(0));
    if least != most {
        doubts.add(None, Doubt::UnevenParts { least, most });
    }
}

fn range(range: &Range<u32>) -> Range<usize> {
    range.start as usize..range.end as usize
}
