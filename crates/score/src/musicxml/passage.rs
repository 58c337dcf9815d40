//! Words that hold for the notes from their place on: which hand plays, and damping at once.
//!
//! How far they hold is common practice, no source: a hand until the other hand's word; plural
//! 'étouffés' until 'laissez vibrer' or 'ord.'; the singular and 'sec' for what sounds there.

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

/// What such words say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum PassageKind {
    /// This hand plays.
    Hand(Hand),
    /// What sounds here is damped at once.
    DampedHere,
    /// All is damped at once from here on.
    DampedFrom,
    /// Nothing is damped any more.
    Ringing,
}

impl PassageKind {
    /// What words say; `None` for all others.
    pub(crate) fn of(words: &str) -> Option<Self> {
        let words = words.trim().trim_matches(['(', ')', '[', ']', ':']);
        let lower = words.to_lowercase();
        hand(&lower).map(Self::Hand).or_else(|| damping(&lower))
    }
}

fn hand(words: &str) -> Option<Hand> {
    let bare: String = words.split([' ', '.']).collect();
    let dotted = words.contains('.');
    match (words, bare.as_str()) {
        ("left hand" | "main gauche" | "mano sinistra" | "linke hand", _) | (_, "lh") => {
            Some(Hand::Left)
        }
        ("right hand" | "main droite" | "mano destra" | "rechte hand", _) | (_, "rh") => {
            Some(Hand::Right)
        }
        (_, "mg" | "ms") if dotted => Some(Hand::Left),
        (_, "md") if dotted => Some(Hand::Right),
        _ => None,
    }
}

fn damping(words: &str) -> Option<PassageKind> {
    const RINGS: [&str; 7] = [
        "l.v.",
        "l. v.",
        "laissez vibrer",
        "laisser vibrer",
        "let ring",
        "klingen lassen",
        "lasciar vibrare",
    ];
    const ORDINARY: [&str; 8] = [
        "ord",
        "ordinaire",
        "ordinario",
        "modo ordinario",
        "nat",
        "naturel",
        "sons naturels",
        "non étouffé",
    ];
    let has = |sign: &str| words.contains(sign);
    let tokens = || {
        words
            .split(|c: char| !c.is_alphanumeric())
            .filter(|t| !t.is_empty())
    };
    let is = |token: &str| tokens().any(|t| t == token);
    if RINGS.iter().any(|sign| has(sign)) {
        return Some(PassageKind::Ringing);
    }
    if ORDINARY.contains(&words.trim_end_matches('.')) {
        return Some(PassageKind::Ringing);
    }
    if has("étouff") || has("etouff") {
        let not = ["non", "pas", "sans", "sauf"].iter().any(|word| is(word));
        let damps = |ends: &[&str]| {
            tokens().any(|t| t.contains("touff") && ends.iter().any(|e| t.ends_with(e)))
        };
        return Some(if not {
            PassageKind::Ringing
        } else if damps(&["és", "es", "ez"]) {
            PassageKind::DampedFrom
        } else {
            PassageKind::DampedHere
        });
    }
    let dry = |token: &str| {
        matches!(
            token,
            "sec" | "secs" | "secco" | "sons" | "très" | "tres" | "molto"
        )
    };
    if tokens().all(dry) && tokens().any(|token| token.starts_with("sec")) {
        return Some(if is("secs") {
            PassageKind::DampedFrom
        } else {
            PassageKind::DampedHere
        });
    }
    None
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_that_hold_are_told_from_others() {
        let check = |words: &str, expected: Option<PassageKind>| {
            assert_eq!(PassageKind::of(words), expected, "{words}");
        };
        for left in [
            "m.g.",
            "M. G.",
            "l.h.",
            "LH",
            "(m.s.)",
            "main gauche",
            "l.H.",
        ] {
            check(left, Some(PassageKind::Hand(Hand::Left)));
        }
        for right in ["m.d.", "r.h.", "rh", "mano destra"] {
            check(right, Some(PassageKind::Hand(Hand::Right)));
        }
        for here in [
            "étouffé",
            "Étouffée",
            "etouffe",
            "étouffer",
            "sec",
            "Sec.",
            "très sec",
            "secco",
        ] {
            check(here, Some(PassageKind::DampedHere));
        }
        for from in ["étouffés", "sons étouffés", "Étouffez", "sons secs"] {
            check(from, Some(PassageKind::DampedFrom));
        }
        for ring in [
            "laissez vibrer",
            "l.v.",
            "ne pas étouffer",
            "non étouffé",
            "ord.",
            "Nat.",
        ] {
            check(ring, Some(PassageKind::Ringing));
        }
        for other in [
            "",
            "md",
            "ms",
            "mg",
            "30 sec.",
            "second",
            "sons",
            "ordre",
            "naturellement",
        ] {
            check(other, None);
        }
    }
}
