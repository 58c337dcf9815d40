//! The measures of a part cut apart, and what holds at the beginning of each.

use std::collections::BTreeMap;
use std::ops::Range;

use super::element::{Element, parse};
use super::skeleton::{MeasureText, PartText};
use super::{MOST_MEASURE_BYTES, head_and_parts, range};
use crate::doubts::Doubts;
use crate::{Piece, ScoreError};

/// What `<attributes>` may hold and goes on from measure to measure, in the order of the schema.
const HOLDS: [&str; 8] = [
    "divisions",
    "key",
    "time",
    "staves",
    "part-symbol",
    "clef",
    "staff-details",
    "transpose",
];

/// A part, measure by measure.
#[derive(Clone, Debug)]
pub(crate) struct CutPart {
    measures: Vec<CutMeasure>,
    /// What is said to hold from a measure on, in order.
    said: Vec<Said>,
    staves: u32,
}

#[derive(Clone, Debug)]
struct CutMeasure {
    /// What stands between its tags; none where it cannot be read.
    inside: Option<Range<usize>>,
    /// The attributes before its first note.
    leading: Option<Range<usize>>,
}

#[derive(Clone, Debug)]
struct Said {
    measure: usize,
    leading: bool,
    /// Place in [`HOLDS`], and the staff it names or nothing.
    what: (usize, String),
    element: Range<usize>,
}

/// Cuts the parts that were read.
pub(crate) fn cut(text: &str, piece: &Piece) -> Result<Vec<CutPart>, ScoreError> {
    let (_, parts) = head_and_parts(text, &mut Doubts::default())?;
    let chosen = piece.chosen.iter();
    let cut = chosen.map(|&part| {
        let (found, listed) = (parts.get(part), piece.parts.get(part));
        let (found, listed) = found.zip(listed).ok_or(ScoreError::OtherScore)?;
        Ok(of_part(text, found, listed.staves))
    });
    cut.collect()
}

fn of_part(text: &str, part: &PartText, staves: u32) -> CutPart {
    let mut cut = CutPart {
        measures: Vec::new(),
        said: Vec::new(),
        staves,
    };
    for (place, measure) in part.measures.iter().enumerate() {
        let read = of_measure(text, place, measure, &mut cut.said);
        cut.measures.push(read.unwrap_or(CutMeasure {
            inside: None,
            leading: None,
        }));
    }
    cut
}

fn of_measure(
    text: &str,
    place: usize,
    measure: &MeasureText,
    said: &mut Vec<Said>,
) -> Option<CutMeasure> {
    let music = range(&measure.music);
    if measure.overloaded || music.is_empty() || music.len() > MOST_MEASURE_BYTES {
        return None;
    }
    let start = music.start;
    let read = parse(&text[music], |element, added| {
        let at = |found: Range<usize>| start + found.start - added..start + found.end - added;
        let mut cut = CutMeasure {
            inside: None,
            leading: None,
        };
        if let (Some(first), Some(last)) = (element.first_child(), element.last_child()) {
            cut.inside = Some(at(first.range().start..last.range().end));
        }
        let mut begun = false;
        for child in element.children().filter(Element::is_element) {
            match child.tag_name().name() {
                "note" | "backup" | "forward" => begun = true,
                "attributes" => {
                    let leading = !begun && cut.leading.is_none();
                    if leading {
                        cut.leading = Some(at(child.range()));
                    }
                    said.extend(holding(child).map(|(what, element)| Said {
                        measure: place,
                        leading,
                        what,
                        element: at(element),
                    }));
                }
                _ => {}
            }
        }
        cut
    });
    read.ok()
}

fn holding<'a>(
    attributes: Element<'a, '_>,
) -> impl Iterator<Item = ((usize, String), Range<usize>)> + use<'a> {
    let named = attributes.children().filter_map(|child| {
        let name = child.tag_name().name();
        let place = HOLDS.iter().position(|&holds| holds == name)?;
        let staff = child.attribute("number").unwrap_or_default().to_owned();
        Some(((place, staff), child.range()))
    });
    named.collect::<Vec<_>>().into_iter()
}

impl CutPart {
    /// Whether a mark may be written into a measure.
    pub(crate) fn takes(&self, measure: usize) -> bool {
        let found = self.measures.get(measure);
        found.is_some_and(|found| found.inside.is_some())
    }

    /// Writes what stands in a measure; `first` is whether all that holds is to be said there.
    pub(crate) fn write(
        &self,
        text: &str,
        measure: usize,
        first: bool,
        insertions: &[(usize, String)],
        music: &mut String,
    ) {
        if first {
            music.push_str(&self.held(text, measure));
        }
        let found = self.measures.get(measure);
        let Some(inside) = found.and_then(|found| found.inside.clone()) else {
            return self.rest(music);
        };
        let leading = found.and_then(|found| found.leading.clone());
        let leading = leading.filter(|_| first);
        let mut from = inside.start;
        let here = insertions.partition_point(|(byte, _)| *byte < inside.start);
        let here = insertions[here..].iter();
        for (byte, added) in here.take_while(|(byte, _)| *byte <= inside.end) {
            copy(text, from..*byte, leading.as_ref(), music);
            music.push_str(added);
            from = *byte;
        }
        copy(text, from..inside.end, leading.as_ref(), music);
    }

    /// Everything that holds at the beginning of a measure, its own first attributes among it.
    fn held(&self, text: &str, measure: usize) -> String {
        let mut held: BTreeMap<&(usize, String), (usize, &Range<usize>)> = BTreeMap::new();
        let before = self.said.iter();
        let before = before
            .take_while(|said| said.measure < measure || said.measure == measure && said.leading);
        for said in before {
            if said.what.1.is_empty() {
                held.retain(|(place, _), _| *place != said.what.0);
            }
            held.insert(&said.what, (said.measure, &said.element));
        }
        let elements = held.iter().map(|((place, _), (since, element))| {
            let element = &text[(*element).clone()];
            // a time that was printed before is not printed again
            if HOLDS[*place] == "time" && *since < measure {
                element.replacen("<time", "<time print-object=\"no\"", 1)
            } else {
                element.to_owned()
            }
        });
        let elements: String = elements.collect();
        if elements.is_empty() {
            elements
        } else {
            format!("<attributes>{elements}</attributes>")
        }
    }

    fn rest(&self, music: &mut String) {
        for staff in 1..=self.staves {
            if staff > 1 {
                music.push_str("<backup><duration>1</duration></backup>");
            }
            music.push_str(&format!(
                "<note><rest measure=\"yes\"/><duration>1</duration><voice>{staff}</voice><staff>{staff}</staff></note>"
            ));
        }
    }
}

/// Copies text but for what lies in `without`.
fn copy(text: &str, what: Range<usize>, without: Option<&Range<usize>>, into: &mut String) {
    let none = what.end..what.end;
    let without = without.unwrap_or(&none);
    for kept in [
        what.start..what.end.min(without.start),
        what.start.max(without.end)..what.end,
    ] {
        into.push_str(text.get(kept).unwrap_or_default());
    }
}
