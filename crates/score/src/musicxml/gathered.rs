//! What the parts of a MusicXML score add up to while they are read.

use std::collections::BTreeSet;

use super::alternating::Alternating;
use super::passage::PassageWords;
use super::tempo_change::TempoChange;
use crate::doubts::Doubts;
use crate::jump::Jump;
use crate::{Anchor, Fraction, KeySignature, Mark, Note, Repeat, Tempo, TimeSignature};

/// Most notes of the chosen parts together.
pub(crate) const MOST_NOTES: usize = 500_000;
/// Most marks, tempos, tremolos and ends of glissandi, of each.
const MOST_MARKS: usize = 100_000;
/// Most jumps, of those that are told and those that are printed.
const MOST_JUMPS: usize = 1_000;

/// Most words that hold for a passage: each may go through many others and many notes.
const MOST_PASSAGES: usize = 2_000;

/// All that was read so far.
#[derive(Debug, Default)]
pub(crate) struct Gathered {
    /// The written measures.
    pub(crate) bars: Vec<Bar>,
    /// Notes of the chosen parts, in the source's order.
    pub(crate) notes: Vec<Note>,
    /// Marks.
    pub(crate) marks: Vec<Mark>,
    /// Tempos of all parts.
    pub(crate) tempos: Vec<Tempo>,
    /// Tempos of all parts that are told by the one before.
    pub(crate) tempo_changes: Vec<TempoChange>,
    /// Words of the chosen parts that hold for a passage.
    pub(crate) passages: Vec<PassageWords>,
    /// Jumps of all parts, told in sound elements.
    pub(crate) jumps: Vec<Jump>,
    /// Jumps that stand in words and signs only.
    pub(crate) printed_jumps: Vec<(Jump, String)>,
    /// All jumps so far, and whether they are only printed.
    pub(crate) known_jumps: BTreeSet<(bool, Jump)>,
    /// Beginnings and ends of glissandi.
    pub(crate) sweeps: Vec<SweepEnd>,
    /// Tremolos of two notes.
    pub(crate) tremolos: Vec<Alternating>,
    /// What was doubtful.
    pub(crate) doubts: Doubts,
    /// Notes that were left out for their number.
    pub(crate) left_out: usize,
}

/// One written measure as all parts have it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Bar {
    pub(crate) number: String,
    pub(crate) implicit: bool,
    pub(crate) length: Fraction,
    pub(crate) time: Option<TimeSignature>,
    pub(crate) key: Option<KeySignature>,
    pub(crate) repeat_start: bool,
    pub(crate) repeat_end: Option<Repeat>,
    pub(crate) ending_start: Option<Vec<u32>>,
    pub(crate) ending_stop: bool,
}

/// One end of a glissando.
#[derive(Clone, Debug)]
pub(crate) struct SweepEnd {
    pub(crate) start: bool,
    /// Its number in the source, and whether it is a slide: what joins both ends.
    pub(crate) number: (u32, bool),
    /// The note it stands at.
    pub(crate) anchor: Anchor,
    /// The key signature there.
    pub(crate) key: KeySignature,
}

impl Gathered {
    /// The bar of that index; bars in between come to be.
    pub(crate) fn bar(&mut self, measure: usize) -> &mut Bar {
        if self.bars.len() <= measure {
            self.bars.resize(measure + 1, Bar::default());
        }
        &mut self.bars[measure]
    }

    /// Whether there is no room for more notes.
    pub(crate) fn is_full(&self) -> bool {
        self.notes.len() >= MOST_NOTES
    }

    /// Adds a note, while there is room.
    pub(crate) fn note(&mut self, note: Note) {
        if self.is_full() {
            self.left_out += 1;
        } else {
            self.notes.push(note);
        }
    }

    /// Adds a mark, while there is room.
    pub(crate) fn mark(&mut self, mark: Mark) {
        if self.marks.len() < MOST_MARKS {
            self.marks.push(mark);
        }
    }

    /// Adds a tempo, while there is room.
    pub(crate) fn tempo(&mut self, tempo: Tempo) {
        if self.tempos.len() < MOST_MARKS {
            self.tempos.push(tempo);
        }
    }

    /// Adds a tempo that is told by the one before, while there is room.
    pub(crate) fn tempo_change(&mut self, change: TempoChange) {
        if self.tempo_changes.len() < MOST_MARKS {
            self.tempo_changes.push(change);
        }
    }

    /// Adds words that hold for a passage, while there is room.
    pub(crate) fn passage(&mut self, words: PassageWords) {
        if self.passages.len() < MOST_PASSAGES {
            self.passages.push(words);
        }
    }

    /// Adds a jump, unless another part has told it already.
    pub(crate) fn jump(&mut self, jump: Jump) {
        if self.jumps.len() < MOST_JUMPS && self.known_jumps.insert((false, jump.clone())) {
            self.jumps.push(jump);
        }
    }

    /// Adds a jump that is only printed, unless another part has it too.
    pub(crate) fn printed_jump(&mut self, jump: Jump, text: &str) {
        let room = self.printed_jumps.len() < MOST_JUMPS;
        if room && self.known_jumps.insert((true, jump.clone())) {
            self.printed_jumps.push((jump, text.to_owned()));
        }
    }

    /// Adds a tremolo, while there is room.
    pub(crate) fn tremolo(&mut self, tremolo: Alternating) {
        if self.tremolos.len() < MOST_MARKS {
            self.tremolos.push(tremolo);
        }
    }

    /// Adds an end of a glissando, while there is room.
    pub(crate) fn sweep(&mut self, end: SweepEnd) {
        if self.sweeps.len() < MOST_MARKS {
            self.sweeps.push(end);
        }
    }
}
