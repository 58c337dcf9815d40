//! A plan: what the feet do and when, what is respelled, what cannot be had, and what it costs.

use harp::{Setting, StringName};
use pitch::{Alteration, Letter, SpelledPitch};

use crate::by_key::Tuned;
use crate::{Cost, Foot};

/// One pedal moved.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Change {
    /// The moment for whose notes it holds already, by its place in the demand.
    pub moment: usize,
    /// When the pedal is home, in microseconds: at that moment, or before it where the foot has
    /// more to do.
    pub at_us: u64,
    /// The foot.
    pub foot: Foot,
    /// The pedal.
    pub letter: Letter,
    /// From where.
    pub from: Alteration,
    /// To where.
    pub to: Alteration,
    /// Whether the foot takes a neighbouring pedal with it at once.
    pub together: bool,
}

/// A note head played on another string than the written one.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Respelled {
    /// The moment.
    pub moment: usize,
    /// Its place among the moment's attacks.
    pub attack: usize,
    /// What she reads.
    pub written: SpelledPitch,
    /// What she plays: the string's letter and octave as they stand.
    pub played: SpelledPitch,
    /// The string.
    pub string: StringName,
}

/// Why a note cannot be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// No string of the harp sounds it.
    OutsideTheHarp,
    /// What would sound it is broken: a string, a disc or a pedal.
    Broken,
    /// Only a string without discs could sound it, and that is tuned to something else.
    TunedByKey,
    /// The moment wants more than one setting holds.
    AtOnce,
    /// The feet are not fast enough.
    TooFast,
    /// It could be had, but costs more than it is worth by the prices given.
    TooDear,
}

impl Reason {
    /// The word used in files.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::OutsideTheHarp => "outside_the_harp",
            Self::Broken => "broken",
            Self::TunedByKey => "tuned_by_key",
            Self::AtOnce => "at_once",
            Self::TooFast => "too_fast",
            Self::TooDear => "too_dear",
        }
    }
}

/// What could be done about a note that cannot be had.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Remedy {
    /// Another name for it, as the pedals stand there or could.
    Respell(SpelledPitch),
    /// The same note in another octave, as the pedals stand there.
    Octave(SpelledPitch),
    /// Leave it out.
    LeaveOut,
}

/// A note head that does not sound.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cannot {
    /// The moment.
    pub moment: usize,
    /// Its place among the moment's attacks.
    pub attack: usize,
    /// What is written.
    pub pitch: SpelledPitch,
    /// Why.
    pub reason: Reason,
    /// What could be done, the nearest first.
    pub remedies: Vec<Remedy>,
}

/// Why the plan does otherwise than a mark in the part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Because {
    /// A note of the same moment needs the pedal elsewhere.
    NotesThere,
    /// The pedal is stuck.
    Stuck,
    /// As marked, the piece as a whole would cost more.
    Dearer,
}

impl Because {
    /// The word used in files.
    pub fn as_str(self) -> &'static str {
        match self {
            Self::NotesThere => "notes_there",
            Self::Stuck => "stuck",
            Self::Dearer => "dearer",
        }
    }
}

/// A mark of the part that the plan contradicts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Contradicted {
    /// The moment.
    pub moment: usize,
    /// The pedal.
    pub letter: Letter,
    /// As marked.
    pub marked: Alteration,
    /// As the plan has it there.
    pub planned: Alteration,
    /// Why.
    pub because: Because,
}

/// A plan for a pedal harp.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Where all pedals stand for the notes of each moment: one can start anywhere. At the first
    /// moment of a movement they have been set in the pause before it.
    pub settings: Vec<Setting>,
    /// Every pedal moved in playing, in order; not those set between movements.
    pub changes: Vec<Change>,
    /// Notes on another string than the written one.
    pub respelled: Vec<Respelled>,
    /// Notes that do not sound.
    pub cannot: Vec<Cannot>,
    /// Marks that the plan contradicts.
    pub contradicted: Vec<Contradicted>,
    /// What strings without discs are tuned to.
    pub tuned: Vec<Tuned>,
    /// The cost.
    pub cost: Cost,
    /// Whether no plan costs less.
    pub optimal: bool,
    /// By how much a plan could cost less at most.
    pub gap: u64,
    /// Steps that the search took.
    pub work: u64,
}

impl Plan {
    /// Where the pedals stand at the beginning; `None` for a piece without a moment.
    pub fn opening(&self) -> Option<Setting> {
        self.settings.first().copied()
    }
}
