//! A part on paper, read as it is typed: what stands in it, what to look at again, what something broken touches.

use std::collections::BTreeSet;

use harp::{HarpKind, Naming};
use pedals::{
    BrokenPart, Known, PaperBar, PaperChange, PaperPart, PaperRead, Standing, Stretch, lost_tonight,
};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::ask::broken;
use super::evening::KeyLine;
use super::line::{Place, SevenPedals, pedal_name};
use super::planned::natural_said;
use super::remark::RemarkLine;
use super::wishes::{DeadDisc, StuckPedal};
use crate::harp_choice::{ChoiceError, HarpChoice};
use crate::shown_choice::ShownChoice;

/// What was typed, and what is broken tonight. Strings as in files, `G3`.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PaperAsk {
    /// The shorthand.
    pub text: String,
    /// Pedals that are stuck.
    pub stuck: Vec<StuckPedal>,
    /// Strings that are missing.
    pub missing: Vec<String>,
    /// Discs that fail.
    pub dead: Vec<DeadDisc>,
}

/// What was read.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PaperAnswer {
    /// Whether the harp has pedals: a part on paper is for such a one.
    pub for_pedals: bool,
    /// Where the pedals stand before the piece.
    pub opening_setting: SevenPedals,
    /// Where they stand when it is over.
    pub ending_setting: SevenPedals,
    /// Movement by movement.
    pub movements: Vec<PaperMovementLine>,
    /// What strings without discs are tuned to.
    pub discless: Vec<KeyLine>,
    /// Strings that she calls exposed, from the bass, as people say them.
    pub exposed: Vec<String>,
    /// Pedals moved.
    pub moves: usize,
    /// Lines that were not read, in order.
    pub refused: Vec<RemarkLine>,
    /// What to look at again, in the order of the lines.
    pub found: Vec<RemarkLine>,
    /// What something broken touches.
    pub touched: Vec<TouchedLine>,
}

/// A movement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PaperMovementLine {
    /// Its name, or nothing.
    pub name: String,
    /// Where the pedals stand when it begins.
    pub setting: SevenPedals,
    /// What is written in it, in order.
    pub places: Vec<PaperPlaceLine>,
}

/// What is written at one place.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PaperPlaceLine {
    /// The line of the text, from 1.
    pub line: usize,
    /// The bar as it is printed; nothing at a rehearsal mark whose bar is not named.
    pub bar: String,
    /// The rehearsal mark that stands there, or before.
    pub mark: Option<String>,
    /// So many bars after the mark, where the bar is named so.
    pub after_mark: u32,
    /// The beat, or nothing.
    pub beat: String,
    /// The right foot's changes.
    pub right: Vec<PaperChangeLine>,
    /// The left foot's.
    pub left: Vec<PaperChangeLine>,
    /// Her note.
    pub note: String,
    /// Where the pedals stand before it.
    pub before: SevenPedals,
    /// Where they stand then.
    pub after: SevenPedals,
}

/// A pedal moved.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PaperChangeLine {
    /// The letter.
    pub pedal: String,
    /// To where.
    pub to: Place,
    /// As it is called: F♯, Fis, fa♯.
    pub name: String,
    /// Whether the foot takes it together with the one before.
    pub together: bool,
}

/// Something broken, and from where to where it is wanted otherwise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct TouchedLine {
    /// `pedal`, `disc` or `string`.
    pub what: String,
    /// The pedal where it is stuck, or the string.
    pub name: String,
    /// What the disc should sound.
    pub sounds: String,
    /// The movement in which it begins, from 1.
    pub movement: usize,
    /// The bar; none at its beginning.
    pub from: Option<String>,
    /// The movement in which it ends, from 1; none where it lasts to the end.
    pub until_movement: Option<usize>,
    /// The bar; none at that movement's beginning.
    pub until: Option<String>,
}

/// Reads what was typed, for this harp.
#[wasm_bindgen]
pub fn paper_part(
    ask: Ts<PaperAsk>,
    harp: Ts<HarpChoice>,
    shown: Ts<ShownChoice>,
) -> Result<Ts<PaperAnswer>, JsError> {
    let (choice, naming) = (harp.to_rust()?, shown.to_rust()?.naming());
    Ok(answer(&ask.to_rust()?, &choice, naming)?.into_ts()?)
}

pub(crate) fn answer(
    ask: &PaperAsk,
    choice: &HarpChoice,
    naming: Naming,
) -> Result<PaperAnswer, ChoiceError> {
    let harp = choice.harp()?;
    let PaperRead {
        part,
        lines,
        errors,
    } = PaperPart::read(&ask.text);
    let refused = errors
        .iter()
        .map(|error| RemarkLine::refused(naming, error.line, error.column, &error.wrong));
    let found = part.check(&harp).into_iter();
    let found = found.map(|one| RemarkLine::found(naming, lines.of(&one), &one.kind));
    let mut found: Vec<RemarkLine> = found.collect();
    if ask.text.trim().is_empty() {
        found.clear();
    }
    found.sort_by_key(|one| one.line);
    let standing = part.standing();
    let movements = part.movements.iter().enumerate();
    let movements = movements.map(|(at, movement)| PaperMovementLine {
        name: movement.name.clone(),
        setting: part.opening(at).into(),
        places: standing
            .iter()
            .filter(|standing| standing.movement == at)
            .map(|one| place(naming, lines.place(at, one.nth).unwrap_or(1), one))
            .collect(),
    });
    let exposed: BTreeSet<_> = part.movements.iter().flat_map(|one| &one.exposed).collect();
    let moves = standing.iter().map(|one| one.place.changes().count());
    let tonight = lost_tonight(
        Known::Paper(&part),
        &broken(&ask.stuck, &ask.missing, &ask.dead)?,
    );
    let touched = tonight.stretches.iter();
    Ok(PaperAnswer {
        for_pedals: harp.kind() == HarpKind::Pedal,
        opening_setting: part.opening(0).into(),
        ending_setting: part.ending().into(),
        movements: movements.collect(),
        discless: discless(naming, &part),
        exposed: exposed.into_iter().map(|&s| naming.string(s)).collect(),
        moves: moves.sum(),
        refused: refused.collect(),
        found,
        touched: touched.map(|(what, at)| touch(naming, *what, at)).collect(),
    })
}

fn place(naming: Naming, line: usize, standing: &Standing<'_>) -> PaperPlaceLine {
    let place = standing.place;
    let (bar, mark, after_mark) = match &place.bar {
        PaperBar::Number(..) => (place.bar.to_string(), place.mark.clone(), 0),
        PaperBar::Mark(mark, after) => (String::new(), Some(mark.clone()), *after),
    };
    let change = |change: &PaperChange| PaperChangeLine {
        pedal: change.letter.to_string(),
        to: change.to.into(),
        name: pedal_name(naming, change.letter, change.to),
        together: change.together,
    };
    let beat = place.beat.map(|beat| pedals::counted_in(beat, 4));
    PaperPlaceLine {
        line,
        bar,
        mark,
        after_mark,
        beat: beat.unwrap_or_default(),
        right: place.right.iter().map(change).collect(),
        left: place.left.iter().map(change).collect(),
        note: place.note.clone(),
        before: standing.before.into(),
        after: standing.after.into(),
    }
}

fn discless(naming: Naming, part: &PaperPart) -> Vec<KeyLine> {
    let movements = (1..).zip(&part.movements);
    let lines = movements.flat_map(|(movement, one)| {
        one.by_key.iter().map(move |&(string, pitch)| KeyLine {
            string: string.to_string(),
            pitch: pitch.to_string(),
            movement,
            in_a_rest: false,
            string_name: naming.string(string),
            pitch_name: natural_said(naming, pitch),
        })
    });
    lines.collect()
}

fn touch(naming: Naming, what: BrokenPart, stretch: &Stretch) -> TouchedLine {
    let (kind, name, sounds) = match what {
        BrokenPart::Pedal(letter, at) => ("pedal", pedal_name(naming, letter, at), String::new()),
        BrokenPart::Disc(string, at) => (
            "disc",
            naming.string(string),
            pedal_name(naming, string.letter, at),
        ),
        BrokenPart::String(string) => ("string", naming.string(string), String::new()),
    };
    TouchedLine {
        what: kind.to_owned(),
        name,
        sounds,
        movement: stretch.movement + 1,
        from: stretch.from.as_ref().map(PaperBar::to_string),
        until_movement: stretch.until.as_ref().map(|(movement, _)| movement + 1),
        until: stretch
            .until
            .as_ref()
            .and_then(|(_, bar)| bar.as_ref())
            .map(PaperBar::to_string),
    }
}
