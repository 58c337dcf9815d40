//! The search for measures: tag by tag, knowing only parts and measures.

use std::collections::BTreeMap;
use std::ops::Range;

use super::{MeasureText, PartText, Skeleton, attribute};
use crate::ScoreError;

/// More measures, over all parts, than any score has.
const MOST_MEASURES: usize = 500_000;
/// More parts than any score has.
const MOST_PARTS: usize = 2_000;
/// More attributes than any tag of MusicXML has; a tag with more makes its measure unreadable.
const MOST_ATTRIBUTES: usize = 64;
/// More attributes than any measure has, for the same reason.
const MOST_ATTRIBUTES_IN_ALL: usize = 500_000;

/// Goes through a text tag by tag.
pub(super) struct Search<'a> {
    text: &'a str,
    found: Skeleton,
    root: bool,
    /// The root's end was found.
    closed: bool,
    /// The parts by their ids.
    ids: BTreeMap<String, usize>,
    /// The part whose tag is open.
    part: Option<usize>,
    /// The measure whose tag is open.
    measure: Option<Open>,
    measures: usize,
    /// In a timewise score: how many measures have begun.
    place: usize,
}

impl<'a> Search<'a> {
    /// At the beginning of a text.
    pub(super) fn new(text: &'a str) -> Self {
        Self {
            text,
            found: Skeleton::default(),
            root: false,
            closed: false,
            ids: BTreeMap::new(),
            part: None,
            measure: None,
            measures: 0,
            place: 0,
        }
    }

    /// Goes to the end of the text.
    pub(super) fn run(mut self) -> Result<Skeleton, ScoreError> {
        let mut at = 0;
        while let Some(next) = find(self.text, at, b'<') {
            at = match self.skip(next) {
                Skip::Nothing => self.tag(next)?,
                Skip::To(end) => end,
                Skip::BreaksOff => break,
            };
        }
        self.found.breaks_off = !self.closed;
        let end = self.text.len();
        self.close_measure(end);
        if !self.root {
            return Err(ScoreError::NoScore);
        }
        if self.measures == 0 {
            return Err(ScoreError::NoMeasures);
        }
        Ok(self.found)
    }

    /// What is no tag: comments, character data, instructions, the document type.
    fn skip(&mut self, at: usize) -> Skip {
        let rest = &self.text.as_bytes()[at..];
        let until = |mark: &str| match self.text[at..].find(mark) {
            Some(end) => Skip::To(at + end + mark.len()),
            None => Skip::BreaksOff,
        };
        if rest.starts_with(b"<!--") {
            until("-->")
        } else if rest.starts_with(b"<![CDATA[") {
            until("]]>")
        } else if rest.starts_with(b"<?") {
            until("?>")
        } else if rest.starts_with(b"<!DOCTYPE") && !self.root {
            self.document_type(at)
        } else {
            Skip::Nothing
        }
    }

    fn document_type(&mut self, at: usize) -> Skip {
        let mut brackets = 0_i32;
        let mut quote = None;
        for (place, &byte) in self.text.as_bytes().iter().enumerate().skip(at) {
            match (quote, byte) {
                (Some(open), _) if open == byte => quote = None,
                (Some(_), _) => {}
                (None, b'"' | b'\'') => quote = Some(byte),
                (None, b'[') => {
                    brackets += 1;
                    self.found.entities = true;
                }
                (None, b']') => brackets -= 1,
                (None, b'>') if brackets <= 0 => return Skip::To(place + 1),
                _ => {}
            }
        }
        Skip::BreaksOff
    }

    /// One tag: returns where to go on.
    fn tag(&mut self, at: usize) -> Result<usize, ScoreError> {
        let Some((end, whole, attributes)) = tag_end(self.text.as_bytes(), at) else {
            return Ok(self.text.len());
        };
        if !whole {
            return Ok(end);
        }
        if let Some(open) = &mut self.measure {
            let many = attributes > MOST_ATTRIBUTES;
            open.attributes += if many {
                MOST_ATTRIBUTES_IN_ALL + 1
            } else {
                attributes
            };
        }
        let tag = &self.text[at..end];
        let closing = tag.starts_with("</");
        let name = &tag[if closing { 2 } else { 1 }..];
        // nearly all tags are others
        if !["part", "measure", "score-"]
            .iter()
            .any(|begins| name.starts_with(begins))
        {
            return Ok(end);
        }
        let name = name
            .split(|c: char| c.is_whitespace() || matches!(c, '/' | '>'))
            .next()
            .unwrap_or_default();
        match name {
            "score-partwise" | "score-timewise" if !closing && !self.root => {
                self.root = true;
                self.found.timewise = name == "score-timewise";
                self.found.head = at..self.text.len();
            }
            "score-partwise" | "score-timewise" if closing => self.closed = true,
            "part" | "measure" if self.root => {
                if self.measures == 0 && self.part.is_none() && self.place == 0 {
                    self.found.head.end = at;
                }
                let outer = (name == "part") != self.found.timewise;
                let empty = tag.ends_with("/>");
                match (outer, closing) {
                    (true, false) => self.open_outer(at, end, empty)?,
                    (true, true) => self.close_outer(at),
                    (false, false) => self.open_inner(at, end, empty)?,
                    (false, true) => self.close_measure(end),
                }
            }
            _ => {}
        }
        Ok(end)
    }

    fn open_outer(&mut self, at: usize, end: usize, empty: bool) -> Result<(), ScoreError> {
        self.close_outer(at);
        if self.found.timewise {
            self.place += 1;
            self.measure_tag(at, end);
            if empty {
                self.measure = None;
            }
        } else {
            let part = self.part_called(attribute(&self.text[at..end], "id"))?;
            self.part = (!empty).then_some(part);
        }
        Ok(())
    }

    fn close_outer(&mut self, at: usize) {
        self.close_measure(at);
        self.part = None;
        self.measure = None;
    }

    fn open_inner(&mut self, at: usize, end: usize, empty: bool) -> Result<(), ScoreError> {
        self.close_measure(at);
        self.measures += 1;
        if self.measures > MOST_MEASURES {
            return Err(too_many(MOST_MEASURES, "bars"));
        }
        let part = if self.found.timewise {
            let part = self.part_called(attribute(&self.text[at..end], "id"))?;
            self.part = Some(part);
            part
        } else {
            self.measure_tag(at, end);
            match self.part {
                Some(part) => part,
                None => self.part_called(None)?,
            }
        };
        let open = self.measure.as_mut();
        let tag = open.map_or_else(Range::default, |open| {
            open.attributes = 0;
            open.tag.clone()
        });
        let place = self.place;
        let timewise = self.found.timewise;
        let measures = &mut self.found.parts[part].measures;
        if timewise && measures.len() + 1 < place {
            self.measures += place - 1 - measures.len();
            if self.measures > MOST_MEASURES {
                return Err(too_many(MOST_MEASURES, "bars"));
            }
            measures.resize(place - 1, MeasureText::default());
        }
        measures.push(MeasureText {
            tag,
            music: short(at)..short(at),
            overloaded: false,
        });
        self.part = Some(part);
        if empty {
            self.close_measure(end);
        }
        Ok(())
    }

    /// Closes the music that is open, if any.
    fn close_measure(&mut self, end: usize) {
        let Some(part) = self.part else { return };
        let Some(measure) = self.found.parts[part].measures.last_mut() else {
            return;
        };
        if self.measure.is_none() || !measure.music.is_empty() {
            return;
        }
        measure.music.end = short(end);
        let attributes = self.measure.as_ref().map_or(0, |open| open.attributes);
        measure.overloaded = attributes > MOST_ATTRIBUTES_IN_ALL;
        if self.found.timewise {
            self.part = None;
        } else {
            self.measure = None;
        }
    }

    fn measure_tag(&mut self, at: usize, end: usize) {
        let tag = short(at)..short(end);
        self.measure = Some(Open { tag, attributes: 0 });
    }

    /// The part of that id; one that has none is a part of its own.
    fn part_called(&mut self, id: Option<String>) -> Result<usize, ScoreError> {
        let parts = &mut self.found.parts;
        let id = id.unwrap_or_default();
        if let Some(place) = self.ids.get(&id) {
            return Ok(*place);
        }
        if parts.len() >= MOST_PARTS {
            return Err(too_many(MOST_PARTS, "parts"));
        }
        self.ids.insert(id.clone(), parts.len());
        parts.push(PartText {
            id,
            measures: Vec::new(),
        });
        Ok(parts.len() - 1)
    }
}

/// A measure while it is open.
struct Open {
    tag: Range<u32>,
    /// Attributes in it so far; of a tag with too many, as many as are too many in all.
    attributes: usize,
}

enum Skip {
    Nothing,
    To(usize),
    BreaksOff,
}

/// Where a tag ends, whether it is one (a '<' may not stand inside), and its attributes.
fn tag_end(bytes: &[u8], at: usize) -> Option<(usize, bool, usize)> {
    let mut quote = None;
    let mut attributes = 0;
    for (place, &byte) in bytes.iter().enumerate().skip(at + 1) {
        match (quote, byte) {
            (_, b'<') => return Some((place, false, attributes)),
            (Some(open), _) if open == byte => quote = None,
            (Some(_), _) => {}
            (None, b'"' | b'\'') => quote = Some(byte),
            (None, b'=') => attributes += 1,
            (None, b'>') => return Some((place + 1, true, attributes)),
            _ => {}
        }
    }
    None
}

fn find(text: &str, from: usize, byte: u8) -> Option<usize> {
    let rest = text.as_bytes().get(from..)?;
    rest.iter().position(|&b| b == byte).map(|at| from + at)
}

/// Texts are shorter than 4 GiB: larger ones were refused.
fn short(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(u32::MAX)
}

fn too_many(limit: usize, what: &'static str) -> ScoreError {
    ScoreError::TooMany { limit, what }
}
