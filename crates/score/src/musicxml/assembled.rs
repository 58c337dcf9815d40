//! From what the parts added up to, to a piece: measures placed in time, notes in order.

use std::cmp::Reverse;
use std::collections::BTreeSet;

use super::gathered::{Bar, Gathered, MOST_NOTES};
use super::head::Head;
use super::{alternating, passage, printed_jump, sweep, tempo_change};
use crate::doubts::Doubts;
use crate::jump::Jump;
use crate::order::playing_order;
use crate::{
    Doubt, Ending, Fraction, KeySignature, Mark, MarkKind, Measure, Note, Part, Piece, TempoMap,
    tempo,
};

/// Puts a piece together.
pub(crate) fn piece(
    mut gathered: Gathered,
    head: Head,
    parts: Vec<Part>,
    chosen: Vec<usize>,
) -> Piece {
    let bars = std::mem::take(&mut gathered.bars);
    let measures = measures(&bars, &mut gathered.doubts);
    let mut notes = std::mem::take(&mut gathered.notes);
    sort(&mut notes);
    ties_from_nowhere(&notes, &mut gathered.doubts);
    let passages = std::mem::take(&mut gathered.passages);
    passage::apply(passages, &parts, &mut notes, &mut gathered.doubts);
    let mut marks = std::mem::take(&mut gathered.marks);
    sort_marks(&mut marks);
    let glissandi = sweep::glissandi(&gathered.sweeps, &notes, &marks, &mut gathered.doubts);
    let tremolos = alternating::tremolos(std::mem::take(&mut gathered.tremolos), &notes);
    let jumps = jumps(&mut gathered);
    let tempos = tempo_change::tempos(
        std::mem::take(&mut gathered.tempos),
        std::mem::take(&mut gathered.tempo_changes),
        &mut gathered.doubts,
    );
    let mut doubts = gathered.doubts;
    if gathered.left_out > 0 {
        doubts.add(None, Doubt::TooManyNotes { limit: MOST_NOTES });
    }
    let mut counts = vec![0; measures.len()];
    for note in &notes {
        counts[note.measure] += 1;
    }
    let order = playing_order(&measures, &jumps, &counts, &mut |measure, doubt| {
        doubts.add(measure, doubt);
    });
    Piece {
        title: head.title,
        composer: head.composer,
        parts,
        chosen,
        diagnostics: doubts.told(&measures),
        measures,
        notes,
        marks,
        glissandi,
        tremolos,
        tempos: TempoMap::new(tempos, tempo::UNSAID),
        order,
    }
}

fn measures(bars: &[Bar], doubts: &mut Doubts) -> Vec<Measure> {
    let mut start = Fraction::ZERO;
    let (mut time, mut key) = (None, KeySignature::default());
    let mut open: Option<Vec<u32>> = None;
    let mut measures = Vec::with_capacity(bars.len());
    for (place, bar) in bars.iter().enumerate() {
        time = bar.time.or(time);
        key = bar.key.unwrap_or(key);
        let full = time.and_then(crate::TimeSignature::quarters);
        let mut length = bar.length;
        if length == Fraction::ZERO
            && let Some(full) = full
        {
            length = full;
            doubts.add(place, Doubt::LengthGuessed);
        }
        if let Some(full) = full.filter(|&full| length > full) {
            let (holds, allows) = (length.to_string(), full.to_string());
            doubts.add(place, Doubt::Overfull { holds, allows });
        }
        let first = bar.ending_start.is_some();
        open = bar.ending_start.clone().or(open);
        measures.push(Measure {
            index: u32::try_from(place + 1).unwrap_or(u32::MAX),
            number: bar.number.clone(),
            implicit: bar.implicit,
            start,
            length,
            time,
            key,
            repeat_start: bar.repeat_start,
            repeat_end: bar.repeat_end,
            ending: open.clone().map(|passes| Ending { passes, first }),
        });
        if bar.ending_stop || bar.repeat_end.is_some() {
            open = None;
        }
        start = start.plus(length).unwrap_or(start);
    }
    measures
}

/// By measure, offset, grace notes first, then from the lowest.
fn sort(notes: &mut [Note]) {
    notes.sort_by_key(|note| {
        let grace = Reverse(note.grace.unwrap_or(0));
        (
            note.measure,
            note.offset,
            grace,
            note.string.midi(),
            note.anchor,
        )
    });
}

/// By measure and offset; a rehearsal mark that several parts have is kept once.
fn sort_marks(marks: &mut Vec<Mark>) {
    marks.sort_by_key(|mark| (mark.measure, mark.offset, mark.anchor));
    let mut known: BTreeSet<(usize, String)> = BTreeSet::new();
    marks.retain(|mark| match &mark.kind {
        MarkKind::Rehearsal(letter) => known.insert((mark.measure, letter.clone())),
        _ => true,
    });
}

/// A tie must come from an earlier note of the same sound in the same part.
fn ties_from_nowhere(notes: &[Note], doubts: &mut Doubts) {
    let mut begun: BTreeSet<(usize, i32)> = BTreeSet::new();
    for note in notes {
        let sound = (note.anchor.part, note.string.midi());
        if note.tie.stop && !begun.contains(&sound) {
            let pitch = note.written.pretty();
            doubts.add(note.measure, Doubt::TieFromNowhere { pitch });
        }
        if note.tie.start {
            begun.insert(sound);
        }
    }
}

/// Jumps that sounds tell; where none does, those that are printed.
fn jumps(gathered: &mut Gathered) -> Vec<Jump> {
    let told = std::mem::take(&mut gathered.jumps);
    if !told.is_empty() {
        return told;
    }
    let printed = std::mem::take(&mut gathered.printed_jumps);
    let jumps = printed_jump::settled(&printed);
    if jumps.iter().any(|jump| jump.kind.leads_back()) {
        for (jump, text) in printed {
            let text = text.chars().take(80).collect();
            gathered
                .doubts
                .add(jump.measure, Doubt::JumpInWords { text });
        }
        jumps
    } else {
        Vec::new()
    }
}
