//! Why a score cannot be read at all. Whatever is only doubtful is a diagnostic.

use crate::Part;

/// What makes reading impossible.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ScoreError {
    /// No bytes at all.
    #[error("the score is empty")]
    Empty,
    /// Neither MusicXML, nor a compressed one, nor MIDI.
    #[error("this is no score that can be read: neither MusicXML (.musicxml, .xml, .mxl) nor MIDI")]
    Unknown,
    /// Larger than is read.
    #[error("the score has more than {limit} bytes, which is the most that is read")]
    TooLarge {
        /// The limit in bytes.
        limit: usize,
    },
    /// More of something than any score has.
    #[error("the score has more than {limit} {what}, which is the most that is read")]
    TooMany {
        /// The limit.
        limit: usize,
        /// Of what.
        what: &'static str,
    },
    /// XML, but no MusicXML score.
    #[error("this is XML, but no MusicXML score: there is no <score-partwise> or <score-timewise>")]
    NoScore,
    /// A score without any measure.
    #[error("there is no measure in this score")]
    NoMeasures,
    /// The compressed file cannot be opened.
    #[error("the compressed score (.mxl) is damaged: {why}")]
    Archive {
        /// What is wrong.
        why: String,
    },
    /// The compressed file names a score outside itself.
    #[error("the compressed score (.mxl) names '{path}', which is not inside it")]
    Outside {
        /// The path it names.
        path: String,
    },
    /// The MIDI file cannot be read.
    #[error("the MIDI file is damaged: {why}")]
    Midi {
        /// What is wrong.
        why: String,
    },
    /// Marks were to be written into a MIDI file.
    #[error(
        "marks cannot be written into a MIDI file, which has no place for them: save the piece as MusicXML from the program it was written with, and give that"
    )]
    NoMarksInMidi,
    /// The piece was read from another score than the one marks are to be written into.
    #[error("marks can only be written into the score from which the piece was read")]
    OtherScore,
    /// A bar into which nothing can be written.
    #[error("bar {number}: a mark cannot be written there ({why})")]
    NoPlace {
        /// The bar's printed number.
        number: String,
        /// What is in the way.
        why: String,
    },
    /// No part has the name that was asked for.
    #[error("no part is called '{asked}'; there are: {}", list(.parts))]
    NoSuchPart {
        /// What was asked for.
        asked: String,
        /// The parts there are.
        parts: Vec<Part>,
    },
}

fn list(parts: &[Part]) -> String {
    let names = parts.iter().enumerate().take(40).map(|(place, part)| {
        let name = if part.name.is_empty() {
            &part.id
        } else {
            &part.name
        };
        format!("{} {name}", place + 1)
    });
    names.collect::<Vec<_>>().join(", ")
}
