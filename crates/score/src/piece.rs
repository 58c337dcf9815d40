//! A score as it was read.

use std::collections::BTreeMap;

use crate::{
    Diagnostic, Fraction, Glissando, Mark, MarkKind, Measure, Moment, Note, Part, Played, TempoMap,
    Tremolo, moment,
};

/// All that was read of a score. Notes and marks are in written order.
#[derive(Clone, Debug, PartialEq)]
pub struct Piece {
    /// The title, or nothing.
    pub title: String,
    /// The composer, or nothing.
    pub composer: String,
    /// Every part of the score.
    pub parts: Vec<Part>,
    /// Indices of the parts that were read: one, or more where hands or all were asked for.
    pub chosen: Vec<usize>,
    /// The written measures.
    pub measures: Vec<Measure>,
    /// The notes of the chosen parts: by measure, offset, grace notes first, then from the lowest.
    pub notes: Vec<Note>,
    /// Marks of the chosen parts, and rehearsal marks of all, by measure and offset.
    pub marks: Vec<Mark>,
    /// Glissandi of the chosen parts.
    pub glissandi: Vec<Glissando>,
    /// Tremolos of two notes of the chosen parts.
    pub tremolos: Vec<Tremolo>,
    /// Tempos of all parts.
    pub tempos: TempoMap,
    /// The measures in playing order: repeats, endings and jumps taken.
    pub order: Vec<Played>,
    /// What was doubtful.
    pub diagnostics: Vec<Diagnostic>,
}

impl Piece {
    /// The measures as written, each once: the playing order when no repeat is taken.
    pub fn written_order(&self) -> Vec<Played> {
        (0..self.measures.len())
            .map(|measure| Played { measure, pass: 1 })
            .collect()
    }

    /// A written measure, counted from 1.
    pub fn measure(&self, index: u32) -> Option<&Measure> {
        self.measures.get((index as usize).checked_sub(1)?)
    }

    /// The number printed at a written measure, counted from 1; the count itself where there is no such measure.
    pub fn bar(&self, index: u32) -> String {
        self.measure(index)
            .map_or_else(|| index.to_string(), |measure| measure.number.clone())
    }

    /// The first rehearsal mark of each written measure that has one; measures are counted from 1.
    pub fn rehearsals(&self) -> BTreeMap<u32, String> {
        let mut rehearsals = BTreeMap::new();
        for mark in &self.marks {
            if let (MarkKind::Rehearsal(text), Some(measure)) =
                (&mark.kind, self.measures.get(mark.measure))
            {
                rehearsals
                    .entry(measure.index)
                    .or_insert_with(|| text.clone());
            }
        }
        rehearsals
    }

    /// The moments of an order ([`Piece::order`] or [`Piece::written_order`]), in time. A measure
    /// that the piece does not have is passed over.
    pub fn moments(&self, order: &[Played]) -> Vec<Moment> {
        moment::moments(self, order)
    }

    /// The part into which [`with_marks`](crate::with_marks()) writes, as an index in
    /// [`Piece::parts`]: the first harp's of those that were read, else the first that was read.
    pub fn marked_part(&self) -> Option<usize> {
        let is_harp = |part: &&usize| self.parts.get(**part).is_some_and(|part| part.is_harp);
        let harp = self.chosen.iter().find(is_harp);
        harp.or(self.chosen.first()).copied()
    }

    /// Where the last written measure ends, in quarters.
    pub fn end(&self) -> Fraction {
        self.measures
            .last()
            .and_then(|last| last.start.plus(last.length))
            .unwrap_or(Fraction::ZERO)
    }
}
