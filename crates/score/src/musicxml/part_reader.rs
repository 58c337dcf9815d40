//! One part, measure by measure: where its cursor stands and what holds from measure to measure.

use std::collections::BTreeMap;

use super::alternating::{self, Alternating};
use super::element::Element;
use super::gathered::Gathered;
use super::transposition::Transposition;
use super::{attributes, barline, direction, note_element};
use crate::{Anchor, Doubt, Fraction, Hand, Harmonics, KeySignature, Note};

/// Reads the measures of one part in their order.
pub(crate) struct PartReader<'g> {
    /// Where everything goes.
    pub(crate) gathered: &'g mut Gathered,
    /// What this part is.
    pub(crate) role: Role,
    /// Divisions of a quarter note.
    pub(crate) divisions: Fraction,
    /// Key signatures by staff; 0 for all.
    pub(crate) keys: BTreeMap<u32, KeySignature>,
    /// Transpositions by staff; 0 for all.
    pub(crate) transpositions: BTreeMap<u32, Transposition>,
    /// Index of the measure.
    pub(crate) measure: usize,
    /// Where the cursor stands in the measure, in quarters.
    pub(crate) at: Fraction,
    /// The furthest it went.
    furthest: Fraction,
    /// Place of the element among the measure's children.
    element: usize,
    /// The element's first byte in the text.
    byte: usize,
    /// The chord that is not yet finished.
    pub(crate) chord: Vec<Note>,
    /// Whether a tremolo starts (or else stops) at it.
    pub(crate) tremolo: Option<bool>,
    /// Tremolos that wait for their second half, by voice.
    pub(crate) alternating: BTreeMap<u32, Alternating>,
    /// Onset of the last note that was no member of a chord.
    pub(crate) onset: Fraction,
    /// Grace notes by voice that wait for their main note, a chord each.
    pub(crate) graces: BTreeMap<u32, Vec<Vec<Note>>>,
    /// The element that was left out last.
    doubted: Option<(usize, &'static str)>,
}

/// What a part is to the reading.
#[derive(Clone, Debug)]
pub(crate) struct Role {
    /// Index of the part.
    pub(crate) part: usize,
    /// Its name, for doubts.
    pub(crate) name: String,
    /// Whether its notes are kept; else only lengths, tempos, rehearsal marks, repeats and jumps.
    pub(crate) chosen: bool,
    /// The hand of its first staff and of all others.
    pub(crate) hands: (Hand, Hand),
    /// Whether its key signature is the piece's.
    pub(crate) leads: bool,
    /// What an unmarked harmonic is.
    pub(crate) harmonics: Harmonics,
}

impl<'g> PartReader<'g> {
    /// At the beginning of a part.
    pub(crate) fn new(gathered: &'g mut Gathered, role: Role) -> Self {
        Self {
            gathered,
            role,
            divisions: Fraction::ONE,
            keys: BTreeMap::new(),
            transpositions: BTreeMap::new(),
            measure: 0,
            at: Fraction::ZERO,
            furthest: Fraction::ZERO,
            element: 0,
            byte: 0,
            chord: Vec::new(),
            tremolo: None,
            alternating: BTreeMap::new(),
            onset: Fraction::ZERO,
            graces: BTreeMap::new(),
            doubted: None,
        }
    }

    /// Reads one measure, whose text begins `from` bytes (possibly less than nought, for what was
    /// put before it) before the whole text's count. Before each element, and before the end,
    /// `watch` sees the reader.
    pub(crate) fn measure(
        &mut self,
        measure: usize,
        music: Element<'_, '_>,
        from: i64,
        watch: &mut super::Watch<'_>,
    ) {
        self.measure = measure;
        self.at = Fraction::ZERO;
        self.furthest = Fraction::ZERO;
        self.onset = Fraction::ZERO;
        for (place, element) in music.children().filter(|c| c.is_element()).enumerate() {
            self.element = place;
            let start = i64::try_from(element.range().start).unwrap_or(0);
            self.byte = usize::try_from(from + start).unwrap_or(0);
            watch(self, Some(element));
            self.one(element);
        }
        watch(self, None);
        note_element::finish_voices(self);
        alternating::finish(self);
        let furthest = self.furthest;
        let bar = self.gathered.bar(measure);
        bar.length = bar.length.max(furthest);
    }

    fn one(&mut self, element: Element<'_, '_>) {
        match element.tag_name().name() {
            "note" => note_element::read(self, element),
            "backup" => self.step(element, true),
            "forward" => self.step(element, false),
            "attributes" => attributes::read(self, element),
            "direction" => direction::read(self, element),
            "sound" => direction::read_sound(self, element, self.at),
            "barline" => barline::read(self, element),
            _ => {}
        }
    }

    fn step(&mut self, element: Element<'_, '_>, back: bool) {
        note_element::finish_voices(self);
        match self.duration(element) {
            Some(duration) if back => match self.at.minus(duration) {
                Some(at) if at >= Fraction::ZERO => self.at = at,
                _ => {
                    self.doubt_element("a step back beyond the beginning of the bar");
                    self.at = Fraction::ZERO;
                }
            },
            Some(duration) => self.advance(duration),
            None => self.doubt_element("a step back or forward"),
        }
    }

    /// The `<duration>` of an element in quarters; `None` where it is missing, negative or no
    /// number.
    pub(crate) fn duration(&self, element: Element<'_, '_>) -> Option<Fraction> {
        let divisions = super::element::decimal(element, "duration")?;
        let quarters = divisions.over(self.divisions)?;
        (quarters >= Fraction::ZERO).then_some(quarters)
    }

    /// Moves the cursor on. A bar longer than any is cut, with a doubt.
    pub(crate) fn advance(&mut self, duration: Fraction) {
        match self.at.plus(duration) {
            Some(at) if at <= Fraction::whole(LONGEST_BAR) => self.at = at,
            _ => self.doubt_element("a duration longer than any bar"),
        }
        self.furthest = self.furthest.max(self.at);
    }

    /// The place of the element that is read now.
    pub(crate) fn anchor(&self) -> Anchor {
        Anchor {
            part: self.role.part,
            measure: self.measure,
            element: self.element,
            byte: self.byte,
        }
    }

    /// The hand of a staff.
    pub(crate) fn hand(&self, staff: u32) -> Hand {
        if staff <= 1 {
            self.role.hands.0
        } else {
            self.role.hands.1
        }
    }

    /// The key signature in force on a staff.
    pub(crate) fn key(&self, staff: u32) -> KeySignature {
        let keys = &self.keys;
        let key = keys.get(&staff).or_else(|| keys.get(&0));
        key.copied().unwrap_or_default()
    }

    /// The transposition in force on a staff.
    pub(crate) fn transposition(&self, staff: u32) -> Transposition {
        let all = &self.transpositions;
        let found = all.get(&staff).or_else(|| all.get(&0));
        found.copied().unwrap_or_default()
    }

    /// A doubt about this measure.
    pub(crate) fn doubt(&mut self, doubt: Doubt) {
        self.gathered.doubts.add(self.measure, doubt);
    }

    /// A doubt about an element of a chosen part that was left out.
    pub(crate) fn doubt_element(&mut self, what: &'static str) {
        // the same again in one measure is not even spelled out
        if self.doubted.replace((self.measure, what)) == Some((self.measure, what)) {
            return;
        }
        let part = self.role.name.clone();
        let what = what.to_owned();
        self.doubt(Doubt::BadElement { part, what });
    }
}

/// Longest bar in quarters: an unmeasured cadenza may be long.
const LONGEST_BAR: i64 = 1_000_000;
