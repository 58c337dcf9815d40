//! Glissandi: their ends joined, and what each letter is during the sweep.

use std::collections::BTreeMap;

use pitch::{Alteration, SpelledPitch};

use super::gathered::SweepEnd;
use crate::doubts::Doubts;
use crate::{Anchor, Doubt, Fraction, Glissando, Letters, Mark, MarkKind, Note, SettingSource};

/// Most notes that are looked at on either side of a glissando's beginning; of marks, four times as
/// many.
const NEAR: usize = 64;

/// The glissandi of sorted notes and marks. Ends of one number that follow each other are joined.
pub(crate) fn glissandi(
    ends: &[SweepEnd],
    notes: &[Note],
    marks: &[Mark],
    doubts: &mut Doubts,
) -> Vec<Glissando> {
    if ends.is_empty() {
        return Vec::new();
    }
    let places: BTreeMap<Anchor, usize> = notes
        .iter()
        .enumerate()
        .map(|(place, note)| (note.anchor, place))
        .collect();
    let mut found = Vec::new();
    for (from, to, begin) in joined(ends, doubts) {
        let Some(&from) = places.get(&from) else {
            continue;
        };
        let to = to.and_then(|to| places.get(&to).copied());
        let (letters, source) = setting(notes, marks, from, to, begin);
        if source == SettingSource::KeyAndAccidentals {
            let letters = letters.to_string();
            doubts.add(notes[from].measure, Doubt::GlissandoGuessed { letters });
        }
        found.push(Glissando {
            from,
            to,
            letters,
            source,
            anchor: begin.anchor,
        });
    }
    found.sort_by_key(|glissando| (glissando.from, glissando.anchor));
    found
}

type Joined<'a> = (Anchor, Option<Anchor>, &'a SweepEnd);

fn joined<'a>(ends: &'a [SweepEnd], doubts: &mut Doubts) -> Vec<Joined<'a>> {
    let mut open: BTreeMap<(usize, (u32, bool)), &SweepEnd> = BTreeMap::new();
    let mut found = Vec::new();
    let mut without_end = Vec::new();
    // at one note what arrives comes before what leaves
    let mut ends: Vec<&SweepEnd> = ends.iter().collect();
    ends.sort_by_key(|end| (end.anchor, end.start));
    for end in ends {
        let key = (end.anchor.part, end.number);
        if end.start {
            without_end.extend(open.insert(key, end));
        } else if let Some(begin) = open.remove(&key) {
            found.push((begin.anchor, Some(end.anchor), begin));
        } else {
            let missing = "beginning";
            doubts.add(end.anchor.measure, Doubt::GlissandoOpen { missing });
        }
    }
    for begin in without_end.into_iter().chain(open.into_values()) {
        doubts.add(
            begin.anchor.measure,
            Doubt::GlissandoOpen { missing: "end" },
        );
        found.push((begin.anchor, None, begin));
    }
    found
}

fn setting(
    notes: &[Note],
    marks: &[Mark],
    from: usize,
    to: Option<usize>,
    begin: &SweepEnd,
) -> (Letters, SettingSource) {
    let seen = written_out(notes, from, to);
    let in_force = accidentals(notes, from).or(begin.key.letters());
    let (marked, source) = marked(marks, &notes[from]);
    if let Some(source) = source {
        return (marked.or(seen).or(in_force), source);
    }
    if seen.is_complete() {
        return (seen, SettingSource::WrittenOut);
    }
    (seen.or(in_force), SettingSource::KeyAndAccidentals)
}

/// The diagram in the bar, at the glissando or before it, and letters in words after the diagram.
fn marked(marks: &[Mark], start: &Note) -> (Letters, Option<SettingSource>) {
    let place = (start.measure, start.offset);
    let until = marks.partition_point(|mark| (mark.measure, mark.offset) <= place);
    let here = marks[..until].iter().rev().take(NEAR * 4);
    let here = here.take_while(|mark| mark.measure == start.measure);
    let mut letters = Letters::default();
    let mut source = None;
    // the last first: what it says, no earlier one says otherwise
    for mark in here.filter(|mark| mark.anchor.part == start.anchor.part) {
        match &mark.kind {
            MarkKind::Diagram(diagram) => {
                letters = letters.or(*diagram);
                source = Some(SettingSource::Diagram);
            }
            MarkKind::PedalWords { letters: words, .. } => {
                letters = letters.or(*words);
                source = source.or(Some(SettingSource::Words));
            }
            _ => {}
        }
    }
    (letters, source)
}

/// What the written notes tell: the run of neighbouring letters that leads to the beginning, the
/// notes between the ends, and both ends.
fn written_out(notes: &[Note], from: usize, to: Option<usize>) -> Letters {
    let start = &notes[from];
    let mut letters = Letters::default();
    if let Some(to) = to {
        let last = (from + NEAR * 4).min(to).min(notes.len() - 1);
        for note in notes[from..=last]
            .iter()
            .filter(|note| same_line(note, start))
        {
            learn(&mut letters, note.written);
        }
    }
    learn(&mut letters, start.written);
    let mut step = None;
    let mut next = start.written;
    let before = notes[..from].iter().rev().take(NEAR);
    for note in before.filter(|note| same_line(note, start)) {
        let moved = height(next) - height(note.written);
        if moved.abs() != 1 || step.is_some_and(|step| step != moved) {
            break;
        }
        learn(&mut letters, note.written);
        step = Some(moved);
        next = note.written;
    }
    letters
}

fn same_line(note: &Note, start: &Note) -> bool {
    (note.anchor.part, note.voice) == (start.anchor.part, start.voice)
}

/// Place on the staff, counted in letters.
fn height(pitch: SpelledPitch) -> i32 {
    7 * i32::from(pitch.octave) + pitch.letter as i32
}

fn learn(letters: &mut Letters, pitch: SpelledPitch) {
    if let Some(alteration) = Alteration::from_semitones(i64::from(pitch.alter)) {
        *letters = letters.or(Letters::default().with(pitch.letter, alteration));
    }
}

/// What the notes of the same bar up to the beginning made of each letter, the last first.
fn accidentals(notes: &[Note], from: usize) -> Letters {
    let start = &notes[from];
    let mut letters = Letters::default();
    let until = notes[from..]
        .iter()
        .take(4 * NEAR)
        .take_while(|note| at(note) == at(start))
        .count();
    let bar = notes[..from + until].iter().rev().take(4 * NEAR);
    for note in bar.take_while(|note| note.measure == start.measure) {
        if note.anchor.part == start.anchor.part {
            learn(&mut letters, note.written);
        }
    }
    letters
}

fn at(note: &Note) -> (usize, Fraction) {
    (note.measure, note.offset)
}
