//! One note head, and what the source says of it.

use pitch::SpelledPitch;

use crate::{Anchor, Fraction, Harmonic};

/// A note head: one key at one time. The members of a chord are notes of their own.
#[derive(Clone, Debug, PartialEq)]
pub struct Note {
    /// As written, before transposition (in MIDI the same as `sounding`).
    pub written: SpelledPitch,
    /// What sounds: after the part's transposition, and for a harmonic the harmonic itself.
    pub sounding: SpelledPitch,
    /// What the string must stand at: `sounding`, or for a harmonic the string's own pitch.
    pub string: SpelledPitch,
    /// Whether the source spells it; in MIDI it does not, and the spelling is the key signature's.
    pub spelled: bool,
    /// Index in [`Piece::measures`](crate::Piece::measures).
    pub measure: usize,
    /// Quarters from the beginning of the measure.
    pub offset: Fraction,
    /// Quarters, as written in this measure; nought for a grace note.
    pub duration: Fraction,
    /// The staff in its part, from 1.
    pub staff: u32,
    /// Which hand, as words such as 'm.g.' say, else as the staff or the channel suggests.
    pub hand: Hand,
    /// The voice as the source names it; in MIDI the channel.
    pub voice: u32,
    /// Whether it is tied.
    pub tie: Tie,
    /// For a grace note: how many grace moments before its main note it comes, 1 for the last of
    /// them. It stands at the offset of the main note.
    pub grace: Option<u32>,
    /// How it is marked as a harmonic.
    pub harmonic: Option<Harmonic>,
    /// How its chord is broken.
    pub arpeggio: Option<Arpeggio>,
    /// To be damped at once: marked at the note, or by words at its place or over its passage, which
    /// also stand in [`Piece::marks`](crate::Piece::marks).
    pub etouffe: bool,
    /// Where it stands.
    pub anchor: Anchor,
}

impl Note {
    /// Whether it is plucked: the end of a tie is not.
    pub fn is_attack(&self) -> bool {
        !self.tie.stop
    }

    /// Where it ends, in quarters from the beginning of its measure.
    pub fn end(&self) -> Fraction {
        self.offset.plus(self.duration).unwrap_or(self.offset)
    }
}

/// Which hand plays.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Hand {
    /// The right: the first of two staves.
    Right,
    /// The left: the second of two staves.
    Left,
    /// Nothing says.
    Unsaid,
}

/// The ends of ties on a note; in the middle of a chain it has both.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Tie {
    /// It rings on into a later note.
    pub start: bool,
    /// It is the continuation of an earlier one, not plucked again.
    pub stop: bool,
}

/// How a chord is broken.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Arpeggio {
    /// Marked, with no direction: from the lowest.
    Plain,
    /// Marked upwards.
    Up,
    /// Marked downwards.
    Down,
    /// Marked not to be broken.
    Together,
}
