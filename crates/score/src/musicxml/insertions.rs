//! Where in a score new marks are written: before the note that begins at their offset.

use std::collections::BTreeMap;
use std::ops::Range;

use super::element::{Element, child, whole};
use super::gathered::Gathered;
use super::part_reader::{PartReader, Role};
use super::skeleton::{MeasureText, PartText};
use super::{head_and_parts, range, read_measure};
use crate::doubts::Doubts;
use crate::{Fraction, Hand, Harmonics, NewMark, Piece, ScoreError};

/// Longest white space before an element that is put before its mark too, in bytes.
const LONGEST_INDENTATION: usize = 200;

/// What is put before which byte of the text, in order.
pub(crate) fn insertions(
    text: &str,
    piece: &Piece,
    marks: &[NewMark],
) -> Result<Vec<(usize, String)>, ScoreError> {
    let (_, parts) = head_and_parts(text, &mut Doubts::default())?;
    let same = parts.len() == piece.parts.len()
        && parts.iter().zip(&piece.parts).all(|(a, b)| a.id == b.id);
    let marked = piece.marked_part().and_then(|part| parts.get(part));
    let part = marked.filter(|_| same).ok_or(ScoreError::OtherScore)?;
    let mut by_measure: BTreeMap<usize, Vec<&NewMark>> = BTreeMap::new();
    for mark in marks.iter().filter(|mark| !mark.is_empty()) {
        if mark.measure >= piece.measures.len() || mark.offset < Fraction::ZERO {
            return Err(ScoreError::OtherScore);
        }
        by_measure.entry(mark.measure).or_default().push(mark);
    }
    let mut found = in_part(text, part, piece, &by_measure)?;
    found.sort_by_key(|(byte, _)| *byte);
    Ok(found)
}

fn in_part(
    text: &str,
    part: &PartText,
    piece: &Piece,
    marks: &BTreeMap<usize, Vec<&NewMark>>,
) -> Result<Vec<(usize, String)>, ScoreError> {
    let mut found = Vec::new();
    let Some((&last, _)) = marks.last_key_value() else {
        return Ok(found);
    };
    let mut gathered = Gathered::default();
    let mut reader = PartReader::new(&mut gathered, silent());
    for measure in 0..=last {
        let wanted = marks.get(&measure).map_or(&[][..], Vec::as_slice);
        let no_place = |why: &str| ScoreError::NoPlace {
            number: piece.measures[measure].number.clone(),
            why: why.to_owned(),
        };
        let places = match part.measures.get(measure) {
            Some(written) if !written.music.is_empty() => {
                places(text, written, measure, !wanted.is_empty(), &mut reader)
            }
            _ => Err("the part does not have it".to_owned()),
        };
        match places {
            Ok(places) => {
                for mark in wanted {
                    let (place, offset) =
                        chosen(&places, mark).ok_or_else(|| no_place("it is an empty tag"))?;
                    found.push((
                        place.byte,
                        written(text, place.byte, mark, offset.as_deref()),
                    ));
                }
            }
            Err(why) if !wanted.is_empty() => return Err(no_place(&why)),
            Err(_) => {}
        }
    }
    Ok(found)
}

/// A part of which only the time is read.
fn silent() -> Role {
    Role {
        part: 0,
        name: String::new(),
        chosen: false,
        hands: (Hand::Unsaid, Hand::Unsaid),
        leads: false,
        harmonics: Harmonics::String,
    }
}

/// A place in a measure at which a mark may be written.
struct Place {
    /// The byte of the text.
    byte: usize,
    /// Quarters from the measure's beginning.
    at: Fraction,
    /// Divisions of a quarter there.
    divisions: Fraction,
    /// The staff of the note that begins there; `None` at a step back or forward, and at the end.
    note: Option<u32>,
}

fn places(
    text: &str,
    measure: &MeasureText,
    index: usize,
    wanted: bool,
    reader: &mut PartReader<'_>,
) -> Result<Vec<Place>, String> {
    let mut places = Vec::new();
    let end = end(text, &range(&measure.music));
    read_measure(text, measure, index, reader, &mut |reader, element| {
        if !wanted {
            return;
        }
        let (byte, note) = match element {
            Some(element) => match kind(element) {
                Some(note) => (Some(reader.anchor().byte), note),
                None => return,
            },
            None => (end, None),
        };
        places.extend(byte.map(|byte| Place {
            byte,
            at: reader.at,
            divisions: reader.divisions,
            note,
        }));
    })?;
    places.sort_by_key(|place| place.at);
    Ok(places)
}

/// The staff of a note, `Some(None)` for steps; `None` where no mark may be written before it.
fn kind(element: Element<'_, '_>) -> Option<Option<u32>> {
    match element.tag_name().name() {
        "note" if child(element, "chord").is_none() => {
            let staff = whole(element, "staff").and_then(|staff| u32::try_from(staff).ok());
            Some(Some(staff.unwrap_or(1)))
        }
        "backup" | "forward" => Some(None),
        _ => None,
    }
}

/// Where the measure's closing tag begins; an empty tag has none.
fn end(text: &str, music: &Range<usize>) -> Option<usize> {
    let closing = text[music.clone()].rfind("</")?;
    Some(music.start + closing)
}

/// The place for a mark among places in order of time, and how many divisions after it the mark
/// stands.
fn chosen<'p>(places: &'p [Place], mark: &NewMark) -> Option<(&'p Place, Option<String>)> {
    let there = at(places, mark.offset);
    let on_its_staff = there
        .iter()
        .find(|place| place.note.is_some() && place.note == mark.staff);
    if let Some(place) = on_its_staff.or_else(|| first(there)) {
        return Some((place, None));
    }
    let rest = |place: &Place| mark.offset.minus(place.at)?.times(place.divisions);
    let mut before = &places[..places.partition_point(|place| place.at < mark.offset)];
    let mut nearest = None;
    while let Some(last) = before.last() {
        let group = at(before, last.at);
        let place = first(group)?;
        if let Some(decimal) = rest(place).and_then(Fraction::to_decimal) {
            return Some((place, Some(decimal)));
        }
        nearest = nearest.or(Some(place));
        before = &before[..before.len() - group.len()];
    }
    let nearest = nearest?;
    Some((nearest, Some(rest(nearest)?.in_places(6))))
}

/// The places at one time.
fn at(places: &[Place], at: Fraction) -> &[Place] {
    let from = places.partition_point(|place| place.at < at);
    let until = places.partition_point(|place| place.at <= at);
    &places[from..until]
}

/// The first note, else the first step or end.
fn first(places: &[Place]) -> Option<&Place> {
    let note = places.iter().find(|place| place.note.is_some());
    note.or(places.first())
}

/// The mark as text, on a line of its own where the element after it has one.
fn written(text: &str, byte: usize, mark: &NewMark, offset: Option<&str>) -> String {
    let mut written = mark.element(offset);
    let before = text.as_bytes()[..byte].iter().rev();
    let space = before
        .take(LONGEST_INDENTATION)
        .take_while(|byte| matches!(byte, b' ' | b'\t'));
    let line = byte - space.count();
    for end in ["\r\n", "\n"] {
        if text[..line].ends_with(end) {
            written.push_str(&text[line - end.len()..byte]);
            break;
        }
    }
    written
}
