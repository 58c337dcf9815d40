//! What was doubtful in a score, and what was made of it.

use std::fmt;

/// One doubt at its place.
#[derive(Clone, Debug, PartialEq)]
pub struct Diagnostic {
    /// Index in [`Piece::measures`](crate::Piece::measures), where it has one place.
    pub measure: Option<usize>,
    /// The number printed at that measure.
    pub number: Option<String>,
    /// The doubt.
    pub doubt: Doubt,
}

impl fmt::Display for Diagnostic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match &self.number {
            Some(number) => write!(f, "bar {number}: {}", self.doubt),
            None => write!(f, "{}", self.doubt),
        }
    }
}

/// What can be doubtful.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Doubt {
    /// No tempo anywhere.
    #[error("the score gives no tempo: taken at {quarters_per_minute} quarters a minute")]
    NoTempo {
        /// What was taken, in quarters a minute.
        quarters_per_minute: f64,
    },
    /// No part is named as a harp's.
    #[error("no part is named as the harp's: '{taken}' was taken")]
    PartGuessed {
        /// Names of the parts that were taken.
        taken: String,
    },
    /// More than one part could be meant.
    #[error("several parts could be meant: '{taken}' was taken; others: {others}")]
    SeveralParts {
        /// The part that was taken.
        taken: String,
        /// The names of the others.
        others: String,
    },
    /// Hands were guessed.
    #[error("which hand plays is not said: {how}")]
    HandsGuessed {
        /// How it was guessed.
        how: &'static str,
    },
    /// A measure could not be read.
    #[error("part {part}: this bar cannot be read ({why}) and was left out")]
    BadMeasure {
        /// The part's name or id.
        part: String,
        /// What is wrong.
        why: String,
    },
    /// Something in a measure could not be read; the rest was.
    #[error("part {part}: {what} cannot be read and was left out")]
    BadElement {
        /// The part's name or id.
        part: String,
        /// What it is.
        what: String,
    },
    /// The head of the score could not be read.
    #[error("the head of the score cannot be read ({why}): names of parts are missing")]
    BadHead {
        /// What is wrong.
        why: String,
    },
    /// The file ends too early.
    #[error("the file breaks off: what came before was read")]
    BreaksOff,
    /// The text is not in the encoding that it should be in.
    #[error("the text is not all in its encoding: signs that cannot be read were replaced")]
    Encoding,
    /// The file defines entities of its own.
    #[error("the file defines abbreviations of its own (entities): they are not read")]
    Entities,
    /// The archive does not say which of its files is the score.
    #[error("the compressed score does not say which file is the score: '{taken}' was taken")]
    NoContainer {
        /// The file that was taken.
        taken: String,
    },
    /// A pitch between the semitones.
    #[error("{written} stands {alter} semitones off its letter: read as {read}")]
    Microtone {
        /// Letter and octave as written.
        written: String,
        /// The alteration as written.
        alter: String,
        /// What it was read as.
        read: String,
    },
    /// A glissando's setting was guessed.
    #[error("the glissando's setting is not written: taken from key and accidentals, {letters}")]
    GlissandoGuessed {
        /// The letters taken.
        letters: String,
    },
    /// A glissando begins or ends only.
    #[error("a glissando has no {missing}")]
    GlissandoOpen {
        /// 'beginning' or 'end'.
        missing: &'static str,
    },
    /// A tie that begins nowhere.
    #[error("{pitch} is tied to nothing before it: taken as held, not plucked")]
    TieFromNowhere {
        /// The note.
        pitch: String,
    },
    /// Words that hold for a passage, and how far they were taken to.
    #[error("'{text}' {taken}")]
    Words {
        /// The words.
        text: String,
        /// What was made of them.
        taken: &'static str,
    },
    /// A tempo that is told by the one before it.
    #[error(
        "the tempo is told by note values alone: taken at {quarters_per_minute} quarters a minute from here"
    )]
    TempoByValues {
        /// What was taken, in quarters a minute.
        quarters_per_minute: f64,
    },
    /// A harmonic of which only the touched place is given.
    #[error("the harmonic {pitch} names only where it is touched: taken as the string")]
    HarmonicTouching {
        /// The note.
        pitch: String,
    },
    /// The bars of the parts do not agree.
    #[error("the parts have different numbers of bars ({least} to {most})")]
    UnevenParts {
        /// Fewest.
        least: usize,
        /// Most.
        most: usize,
    },
    /// The length of a measure is not written and was taken from the time signature.
    #[error("nothing says how long this bar is: taken from the time signature")]
    LengthGuessed,
    /// A measure is longer than its time signature allows.
    #[error("the bar holds {holds} quarters, its time signature {allows}")]
    Overfull {
        /// What it holds.
        holds: String,
        /// What it should.
        allows: String,
    },
    /// A repeat or jump that cannot be followed.
    #[error("{what}: left out of the playing order")]
    Order {
        /// What it is.
        what: &'static str,
    },
    /// A measure that is in the written order only.
    #[error("repeats and jumps never lead to this bar: it is left out when they are taken")]
    NeverPlayed,
    /// A jump that stands in words only.
    #[error("'{text}' stands in words only: followed as it reads")]
    JumpInWords {
        /// The words.
        text: String,
    },
    /// The playing order is too long.
    #[error("repeats and jumps make more than {limit} bars or too many notes: read without them")]
    OrderTooLong {
        /// The most bars.
        limit: usize,
    },
    /// Ticks are parts of a second, not of a beat.
    #[error("the MIDI file counts seconds, not beats: bars and beats are guessed at 120 a minute")]
    SecondsNotBeats,
    /// A MIDI note without end.
    #[error("{count} notes never end: taken until the end of the track")]
    NoteWithoutEnd {
        /// How many.
        count: usize,
    },
    /// Only some of the notes were read.
    #[error("there are more than {limit} notes: the rest was left out")]
    TooManyNotes {
        /// The most that are read.
        limit: usize,
    },
    /// More doubts than are listed.
    #[error("and {more} more doubts")]
    More {
        /// How many.
        more: usize,
    },
}
