//! What is wrong in a part on paper, or to be looked at again: a code and the values in it, which the page puts in words.

use harp::Naming;
use pedals::{FindingKind, Foot, PaperWrong};
use pitch::{Alteration, Letter, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::Tsify;

use super::line::pedal_name;

/// One remark.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct RemarkLine {
    /// The line of the text, from 1; none where it is about the whole.
    pub line: Option<usize>,
    /// The sign at which reading stopped, from 1; none where the line was read.
    pub column: Option<usize>,
    /// What it is.
    pub code: String,
    /// Whose foot, where it is about one: `left` or `right`.
    pub foot: Option<String>,
    /// What it is about, by name.
    pub about: Vec<String>,
}

impl RemarkLine {
    /// Why a line was not read.
    pub(crate) fn refused(naming: Naming, line: usize, column: usize, wrong: &PaperWrong) -> Self {
        let (code, about) = refusal(naming, wrong);
        Self {
            line: Some(line),
            column: Some(column),
            code: code.to_owned(),
            foot: None,
            about,
        }
    }

    /// What to look at again.
    pub(crate) fn found(naming: Naming, line: Option<usize>, kind: &FindingKind) -> Self {
        let (code, about) = finding(naming, kind);
        let foot = match kind {
            FindingKind::TwoPlaces(foot, ..) | FindingKind::Crosses(foot, _) => Some(*foot),
            _ => None,
        };
        Self {
            line,
            column: None,
            code: code.to_owned(),
            foot: foot.map(Foot::as_str).map(str::to_owned),
            about,
        }
    }
}

fn refusal(naming: Naming, wrong: &PaperWrong) -> (&'static str, Vec<String>) {
    let typed = |text: &String| vec![text.clone()];
    match wrong {
        PaperWrong::NoPlace(text) => ("no_place", typed(text)),
        PaperWrong::NoLetter(text) if text.starts_with(['H', 'h']) => ("no_h", typed(text)),
        PaperWrong::NoLetter(text) => ("no_letter", typed(text)),
        PaperWrong::OtherFoot(letter) => ("other_foot", vec![bare(naming, *letter)]),
        PaperWrong::Twice(letter) => ("twice", vec![bare(naming, *letter)]),
        PaperWrong::SecondBar => ("second_bar", Vec::new()),
        PaperWrong::NothingToJoin => ("nothing_to_join", Vec::new()),
        PaperWrong::NoBeat(text) => ("no_beat", typed(text)),
        PaperWrong::NothingThere => ("nothing_there", Vec::new()),
        PaperWrong::NoString(text) => ("no_string", typed(text)),
        PaperWrong::NoPitch(text) => ("no_pitch", typed(text)),
        PaperWrong::TooLong => ("too_long", Vec::new()),
    }
}

fn finding(naming: Naming, kind: &FindingKind) -> (&'static str, Vec<String>) {
    let letters = |letters: &[&Letter]| letters.iter().map(|l| bare(naming, **l)).collect();
    match kind {
        FindingKind::NoOpening => ("no_opening", Vec::new()),
        FindingKind::ChangesNothing(letter, to) => {
            ("changes_nothing", vec![pedal_name(naming, *letter, *to)])
        }
        FindingKind::TwoPlaces(_, one, other) => ("two_places", letters(&[one, other])),
        FindingKind::TwoPositions(letter) => ("two_positions", letters(&[letter])),
        FindingKind::NotNeighbours(one, other) => ("not_neighbours", letters(&[one, other])),
        FindingKind::Crosses(_, letter) => ("crosses", letters(&[letter])),
        FindingKind::OutOfOrder(bar) => ("out_of_order", vec![bar.to_string()]),
        FindingKind::MarkTwice(mark) => ("mark_twice", vec![mark.clone()]),
        FindingKind::NoSuchString(string) => ("no_such_string", vec![naming.string(*string)]),
        FindingKind::HasDiscs(string) => ("has_discs", vec![naming.string(*string)]),
    }
}

/// A pedal by its letter alone.
fn bare(naming: Naming, letter: Letter) -> String {
    let natural = SpelledPitch::new(letter, Alteration::Natural, 4);
    naming.language.name(natural)
}
