//! What was doubtful in a score: a code and the values in it, which the page puts in words.

use pedals::LeftOut;
use score::{Diagnostic, Doubt, Piece};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

/// Something doubtful.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct DoubtLine {
    /// The written measure, from 1.
    pub measure: Option<u32>,
    /// What it is.
    pub code: String,
    /// The values in it. A few are phrases of the reader's own, in English, and the page knows them.
    pub about: Vec<String>,
}

impl DoubtLine {
    /// A doubt of the reading.
    pub(crate) fn of(piece: &Piece, found: &Diagnostic) -> Self {
        let measure = found.measure.and_then(|at| piece.measures.get(at));
        let (code, about) = told(&found.doubt);
        Self {
            measure: measure.map(|measure| measure.index),
            code: code.to_owned(),
            about,
        }
    }

    /// What is not planned, as the piece is too long.
    pub(crate) fn left_out(left: &LeftOut) -> Self {
        let (code, about) = match left {
            LeftOut::Repeats => ("without_repeats", Vec::new()),
            LeftOut::After(bar) => ("until_bar", vec![bar.clone()]),
        };
        Self {
            measure: None,
            code: code.to_owned(),
            about,
        }
    }
}

fn told(doubt: &Doubt) -> (&'static str, Vec<String>) {
    let one = |text: &str| vec![text.to_owned()];
    let two = |text: &str, other: &str| vec![text.to_owned(), other.to_owned()];
    match doubt {
        Doubt::NoTempo {
            quarters_per_minute: q,
        } => ("no_tempo", one(&q.to_string())),
        Doubt::TempoByValues {
            quarters_per_minute: q,
        } => ("tempo_by_values", one(&q.to_string())),
        Doubt::PartGuessed { taken } => ("part_guessed", one(taken)),
        Doubt::SeveralParts { taken, others } => ("several_parts", two(taken, others)),
        Doubt::HandsGuessed { how } => ("hands_guessed", one(how)),
        Doubt::BadMeasure { part, why } => ("bad_measure", two(part, why)),
        Doubt::BadElement { part, what } => ("bad_element", two(part, what)),
        Doubt::BadHead { why } => ("bad_head", one(why)),
        Doubt::BreaksOff => ("breaks_off", Vec::new()),
        Doubt::Encoding => ("encoding", Vec::new()),
        Doubt::Entities => ("entities", Vec::new()),
        Doubt::NoContainer { taken } => ("no_container", one(taken)),
        Doubt::Microtone {
            written,
            alter,
            read,
        } => (
            "microtone",
            vec![written.clone(), alter.clone(), read.clone()],
        ),
        Doubt::GlissandoGuessed { letters } => ("glissando_guessed", one(letters)),
        Doubt::GlissandoOpen { missing } => ("glissando_open", one(missing)),
        Doubt::TieFromNowhere { pitch } => ("tie_from_nowhere", one(pitch)),
        Doubt::Words { text, taken } => ("words", two(text, taken)),
        Doubt::HarmonicTouching { pitch } => ("harmonic_touching", one(pitch)),
        Doubt::UnevenParts { least, most } => {
            ("uneven_parts", two(&least.to_string(), &most.to_string()))
        }
        Doubt::LengthGuessed => ("length_guessed", Vec::new()),
        Doubt::Overfull { holds, allows } => ("overfull", two(holds, allows)),
        Doubt::Order { what } => ("order", one(what)),
        Doubt::NeverPlayed => ("never_played", Vec::new()),
        Doubt::JumpInWords { text } => ("jump_in_words", one(text)),
        Doubt::OrderTooLong { limit } => ("order_too_long", one(&limit.to_string())),
        Doubt::SecondsNotBeats => ("seconds_not_beats", Vec::new()),
        Doubt::NoteWithoutEnd { count } => ("note_without_end", one(&count.to_string())),
        Doubt::TooManyNotes { limit } => ("too_many_notes", one(&limit.to_string())),
        Doubt::More { more } => ("more", one(&more.to_string())),
    }
}
