//! A plan as it goes into a score: the opening diagram, a diagram at every rehearsal mark, each change pencilled
//! between the staves.

use harp::Setting;
use pitch::{Alteration, Language, Letter, SpelledPitch};
use score::{Fraction, Letters, NewMark, NewMarkKind, Piece};

use crate::at_passes::{AtPasses, settings};
use crate::{Demand, Foot, Mark, Plan, Quarters, written_marks};

/// What one foot does at one place, as a player pencils it.
#[derive(Clone, Debug, PartialEq)]
pub struct Pencilled {
    /// Where and what is written.
    pub mark: NewMark,
    /// Its changes, by their places among [`written_marks`].
    pub changes: Vec<usize>,
}

/// Every change as it is pencilled, the right foot before the left; `times` says in words at which times of playing a
/// mark holds only.
pub fn pencilled(
    piece: &Piece,
    demand: &Demand,
    plan: &Plan,
    times: &dyn Fn(&[u32]) -> String,
) -> Vec<Pencilled> {
    let marks = written_marks(demand, plan);
    let mut all: Vec<Pencilled> = Vec::new();
    let mut first = 0;
    for here in marks.chunk_by(|one, other| (one.measure, one.beat) == (other.measure, other.beat))
    {
        for foot in [Foot::Right, Foot::Left] {
            let own = (first..).zip(here).filter(|(_, mark)| mark.foot == foot);
            let (some, every): (Vec<_>, Vec<_>) = own.partition(|(_, mark)| mark.only_then);
            if !every.is_empty() {
                all.push(one(piece, &every, None));
            }
            for only in some {
                all.push(one(piece, &[only], Some(times(&only.1.passes))));
            }
        }
        first += here.len();
    }
    all
}

fn one(piece: &Piece, marks: &[(usize, &Mark)], addition: Option<String>) -> Pencilled {
    let words: Vec<String> = marks
        .iter()
        .map(|(_, mark)| letter(mark.letter, mark.to))
        .collect();
    let kind = NewMarkKind::Pencilled {
        words: words.join(" "),
        addition,
    };
    let first = marks.first().map(|(_, mark)| (mark.measure, mark.beat));
    let (measure, beat) = first.unwrap_or((1, Quarters::new(1, 1)));
    Pencilled {
        mark: at(piece, measure, beat, kind),
        changes: marks.iter().map(|(index, _)| *index).collect(),
    }
}

/// The opening setting and that of every rehearsal mark, where it is the same at every playing.
pub fn diagrams(piece: &Piece, demand: &Demand, plan: &Plan) -> Vec<NewMark> {
    let all = settings(demand, &plan.settings);
    let measure = |at: &AtPasses<Setting>| demand.moments[at.moment].measure;
    let begin = Quarters::new(1, 1);
    let rehearsals = piece.rehearsals();
    let mut marks = Vec::new();
    for of_measure in all.chunk_by(|one, other| measure(one) == measure(other)) {
        let [only] = of_measure else { continue };
        let there = measure(only);
        let begins = only.moment == 0 || demand.movements.contains(&only.moment);
        if begins || rehearsals.contains_key(&there) {
            let kind = NewMarkKind::Diagram(letters(only.what));
            marks.push(at(piece, there, begin, kind));
        }
    }
    let opened = marks.first().is_some_and(|mark| mark.measure == 0);
    if let (false, Some(opening), Some(first)) = (opened, plan.opening(), demand.moments.first()) {
        let kind = NewMarkKind::Diagram(letters(opening));
        marks.insert(0, at(piece, first.measure, begin, kind));
    }
    marks
}

/// A mark between the staves at a written place: the measure counted from 1, the beat in quarters from 1.
pub fn at(piece: &Piece, measure: u32, beat: Quarters, kind: NewMarkKind) -> NewMark {
    let offset = Fraction::new(beat.numerator() - beat.denominator(), beat.denominator());
    let index = (measure as usize).saturating_sub(1);
    NewMark::between_staves(piece, index, offset.unwrap_or(Fraction::ZERO), kind)
}

fn letters(setting: Setting) -> Letters {
    let known = Letter::ALL.into_iter();
    let known = known.filter_map(|letter| Some((letter, setting.get(letter)?)));
    known.fold(Letters::default(), |letters, (letter, at)| {
        letters.with(letter, at)
    })
}

/// As any reader of notes reads it: letter and sign.
fn letter(letter: Letter, to: Alteration) -> String {
    let name = Language::English.name(SpelledPitch::new(letter, to, 4));
    let natural = if to == Alteration::Natural { "♮" } else { "" };
    name + natural
}
