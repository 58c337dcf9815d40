//! An evening: pieces in order on one harp or several, and what lies between them. What strings without discs must be
//! tuned to and when, what is set before each piece, how the strings are used, what something broken costs tonight.

mod between;
mod left;
mod tonight;
mod used;

use harp::{Harp, OpenTuning, Setting, StringName};
use pitch::{Alteration, Letter, ReferencePitch, SpelledPitch};

use crate::{Demand, KeySet, LeverPlan, PaperPart, Plan};
pub use tonight::{BrokenPart, Lost, lost_tonight};
pub use used::StringUse;

/// A piece as it enters the evening.
#[derive(Clone, Debug)]
pub struct ProgrammePiece<'a> {
    /// Which harp it is played on: one name is one instrument.
    pub harp_name: &'a str,
    /// That harp.
    pub harp: &'a Harp,
    /// The pitch of A4.
    pub reference: ReferencePitch,
    /// What is known of the piece.
    pub known: Known<'a>,
}

/// What is known of a piece.
#[derive(Clone, Copy, Debug)]
pub enum Known<'a> {
    /// A plan for pedals; it must be of that demand.
    Pedals(&'a Demand, &'a Plan),
    /// A plan for levers; it must be of that demand.
    Levers(&'a Demand, &'a LeverPlan),
    /// A part on paper.
    Paper(&'a PaperPart),
    /// How it begins and ends on a pedal harp, as it was told before; no more of it is at hand.
    Outline(&'a Outline),
    /// Nothing could be read of it: the harp is taken to stay as it was.
    Nothing,
}

/// How a piece begins and ends on a pedal harp.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Outline {
    /// What strings without discs are tuned to, in order.
    pub by_key: Vec<KeySet>,
    /// Where the pedals stand when it begins.
    pub opening: Setting,
    /// Where they stand when it is over.
    pub ending: Setting,
}

/// The evening.
#[derive(Clone, Debug, PartialEq)]
pub struct Programme {
    /// What each piece needs, in order.
    pub pieces: Vec<Needs>,
    /// Strings without discs that want another pitch than they last had, in order.
    pub retunings: Vec<Retuning>,
    /// Every string that is played or named, harp by harp, from the bass.
    pub strings: Vec<StringUse>,
    /// How each harp is tuned before the evening, in the order in which they are played.
    pub harps: Vec<AtFirst>,
}

/// How a harp is tuned before the evening.
#[derive(Clone, Debug, PartialEq)]
pub struct AtFirst {
    /// The harp.
    pub harp_name: String,
    /// The pitch of A4 in its first piece.
    pub reference: ReferencePitch,
    /// The open tuning of a lever harp, where it is known.
    pub open: Option<OpenTuning>,
    /// Strings without discs, each as the first piece that plays it wants it.
    pub discless: Vec<(StringName, SpelledPitch)>,
}

impl Programme {
    /// The strings that may be turned just before a piece, from 0: those that a piece before it wanted otherwise and it,
    /// or a later one, wants anew.
    pub fn offered_before(&self, piece: usize) -> impl Iterator<Item = &Retuning> {
        self.retunings.iter().filter(move |turn| {
            turn.in_rest_at.is_none() && turn.after.piece < piece && piece <= turn.before.piece
        })
    }
}

/// What a piece needs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Needs {
    /// Whether no piece on this harp comes before.
    pub first: bool,
    /// Strings without discs, movement by movement.
    pub by_key: Vec<KeySet>,
    /// Of these, what is set before it begins and did not stand so after the pieces before it; a string that none of
    /// them wanted is one.
    pub turned: Vec<KeySet>,
    /// Where the pedals stand when it begins; nothing on a lever harp.
    pub opening: Setting,
    /// Where the piece before it on the same harp left them, as far as there was one.
    pub left: Setting,
    /// Pedals that must be moved before it, in the order in which they lie.
    pub pedals: Vec<PedalBefore>,
    /// What a lever harp needs.
    pub levers: Option<LeversBefore>,
    /// The pitch in which the same harp stood before, where that was another.
    pub other_reference: Option<ReferencePitch>,
}

/// A pedal to be moved before a piece.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PedalBefore {
    /// The pedal.
    pub letter: Letter,
    /// Where the last piece left it; `None` where no piece on this harp came before.
    pub from: Option<Alteration>,
    /// Where it must stand.
    pub to: Alteration,
}

/// What a lever harp needs before a piece.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LeversBefore {
    /// The open tuning.
    pub open: OpenTuning,
    /// The one before it, where that was another: its letters must be retuned by key.
    pub other_open: Option<OpenTuning>,
    /// Levers that are on, from the bass.
    pub on: Vec<StringName>,
    /// Levers to be flipped before it: the string, and whether it goes on. Levers that are not on are off.
    pub flips: Vec<(StringName, bool)>,
}

/// A place between two pieces or movements.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Slot {
    /// The piece, from 0.
    pub piece: usize,
    /// The movement, from 0.
    pub movement: usize,
}

/// A string without discs that wants another pitch than it had: a conflict of the evening.
#[derive(Clone, Debug, PartialEq)]
pub struct Retuning {
    /// The harp.
    pub harp_name: String,
    /// The string.
    pub string: StringName,
    /// What it sounded.
    pub from: SpelledPitch,
    /// What it must sound.
    pub to: SpelledPitch,
    /// The last piece and movement that want it as it was: it may be turned at any time after.
    pub after: Slot,
    /// The first that want it otherwise.
    pub before: Slot,
    /// The moment of the rest, where it is turned within `before`, not before it.
    pub in_rest_at: Option<usize>,
}

impl Retuning {
    /// Semitones up, negative for down.
    pub fn semitones(&self) -> i32 {
        self.to.midi() - self.from.midi()
    }
}

/// The evening of these pieces in this order.
pub fn programme(pieces: &[ProgrammePiece<'_>]) -> Programme {
    let mut needs: Vec<Needs> = Vec::new();
    let mut left = left::Left::default();
    for piece in pieces {
        needs.push(left.before(piece));
    }
    Programme {
        retunings: between::retunings(pieces, &needs),
        strings: used::strings(pieces),
        harps: between::at_first(pieces, &needs),
        pieces: needs,
    }
}
