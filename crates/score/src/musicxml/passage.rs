//! Words that hold for the notes from their place on: which hand plays, and damping at once.
//!
//! How far they hold is common practice, no source: a hand until the other hand's word; plural
//! 'étouffés' until 'laissez vibrer' or 'ord.'; the singular and 'sec' for what sounds there.

use super::passage_words::PassageKind;
use crate::doubts::Doubts;
use crate::{Doubt, Fraction, Hand, Note, Part};

/// Words at a written place.
#[derive(Clone, Debug)]
pub(crate) struct PassageWords {
    /// Index of the part.
    pub(crate) part: usize,
    /// Index of the measure.
    pub(crate) measure: usize,
    /// Quarters from its beginning.
    pub(crate) offset: Fraction,
    /// The staff, where said.
    pub(crate) staff: Option<u32>,
    /// What they say.
    pub(crate) kind: PassageKind,
    /// As printed.
    pub(crate) text: String,
}

/// Gives every note the hand and the damping that words give it. `notes` are in written order.
pub(crate) fn apply(
    mut words: Vec<PassageWords>,
    parts: &[Part],
    notes: &mut [Note],
    doubts: &mut Doubts,
) {
    words.sort_by_key(|words| (words.measure, words.offset));
    for word in &mut words {
        let one_staff = parts.get(word.part).is_none_or(|part| part.staves == 1);
        word.staff = word.staff.or(one_staff.then_some(1));
    }
    for (nth, word) in words.iter().enumerate() {
        let end = words[nth + 1..].iter().find(|later| ends(word, later));
        if end.is_some() && again(word, &words[..nth]) {
            continue;
        }
        match word.kind {
            PassageKind::Hand(hand) => of_hand(word, hand, end, notes, doubts),
            PassageKind::DampedHere => damp(word, Until::Here, notes),
            PassageKind::DampedFrom => {
                if end.is_none() {
                    doubt(
                        word,
                        "is ended nowhere: taken for what sounds there only",
                        doubts,
                    );
                }
                damp(word, end.map_or(Until::Here, Until::place), notes);
            }
            PassageKind::Ringing => {}
        }
    }
}

/// Up to where words hold.
#[derive(Clone, Copy)]
enum Until {
    /// Only at their own place.
    Here,
    /// To the end of their measure.
    Bar,
    /// Up to a place, which is no longer meant.
    Place(usize, Fraction),
}

impl Until {
    fn place(words: &PassageWords) -> Self {
        Self::Place(words.measure, words.offset)
    }
}

/// The notes from words on; notes of their own part, and of their staff where it is said.
fn meant<'n>(
    word: &'n PassageWords,
    until: Until,
    notes: &'n mut [Note],
) -> impl Iterator<Item = &'n mut Note> {
    let from = (word.measure, word.offset);
    let first = notes.partition_point(|note| (note.measure, note.offset) < from);
    let holds = move |note: &Note| match until {
        Until::Here => (note.measure, note.offset) == from,
        Until::Bar => note.measure == from.0,
        Until::Place(measure, offset) => (note.measure, note.offset) < (measure, offset),
    };
    let notes = notes[first..]
        .iter_mut()
        .take_while(move |note| holds(note));
    notes.filter(move |note| {
        note.anchor.part == word.part && word.staff.is_none_or(|staff| staff == note.staff)
    })
}

fn damp(word: &PassageWords, until: Until, notes: &mut [Note]) {
    for note in meant(word, until, notes) {
        note.etouffe = true;
    }
}

fn of_hand(
    word: &PassageWords,
    hand: Hand,
    end: Option<&PassageWords>,
    notes: &mut [Note],
    doubts: &mut Doubts,
) {
    if word.staff.is_none() {
        doubt(word, "does not say at which staff: left out", doubts);
        return;
    }
    let mut changed = false;
    for note in meant(word, end.map_or(Until::Bar, Until::place), notes) {
        changed |= note.hand != hand;
        note.hand = hand;
    }
    if changed && end.is_none() {
        doubt(word, "is ended nowhere: taken for this bar only", doubts);
    }
}

/// Whether a later word ends what an earlier one says.
fn ends(word: &PassageWords, later: &PassageWords) -> bool {
    let staves = word.staff.zip(later.staff);
    let same_strings = word.part == later.part && staves.is_none_or(|(a, b)| a == b);
    match (word.kind, later.kind) {
        (PassageKind::Hand(hand), PassageKind::Hand(other)) => {
            hand != other && (word.part, word.staff) == (later.part, later.staff)
        }
        (PassageKind::DampedFrom, PassageKind::Ringing) => same_strings,
        _ => false,
    }
}

/// Whether the same was said before and not ended since: a reminder says nothing new.
fn again(word: &PassageWords, before: &[PassageWords]) -> bool {
    let same = |other: &PassageWords| {
        let everywhere = other.staff.is_none() && word.kind == PassageKind::DampedFrom;
        other.kind == word.kind
            && other.part == word.part
            && (everywhere || other.staff == word.staff)
    };
    before.iter().rposition(same).is_some_and(|last| {
        let mut since = before[last + 1..].iter();
        !since.any(|other| ends(&before[last], other))
    })
}

fn doubt(word: &PassageWords, taken: &'static str, doubts: &mut Doubts) {
    let text = word.text.clone();
    doubts.add(word.measure, Doubt::Words { text, taken });
}
