//! The evening: what is set and turned before each piece, as the pieces before it left the harp.

use harp::{Naming, Setting};
use pedals::{KeySet, Known, Outline, ProgrammePiece, programme};
use pitch::{Alteration, ReferencePitch, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use super::line::{Place, SevenPedals, pedal_name};
use super::planned::natural_said;
use crate::harp_choice::{ChoiceError, HarpChoice};
use crate::shown_choice::ShownChoice;

/// What a string without discs is tuned to, for a movement.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct KeyLine {
    /// The string.
    pub string: String,
    /// What it sounds.
    pub pitch: String,
    /// Its movement, from 1.
    pub movement: usize,
    /// Whether it is retuned in a rest.
    pub in_a_rest: bool,
    /// The string as people say it.
    pub string_name: String,
    /// The pitch as people say it.
    pub pitch_name: String,
}

/// How a piece begins and ends, as it was told; nothing of it where it is not read or planned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PieceEnds {
    /// Where the pedals stand before it.
    pub opening_setting: SevenPedals,
    /// Where they stand when it is over.
    pub ending_setting: SevenPedals,
    /// What strings without discs are tuned to.
    pub discless: Vec<KeyLine>,
}

/// The pieces in their order.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EveningAsk {
    /// One after the other.
    pub pieces: Vec<Option<PieceEnds>>,
}

/// What is done before a piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct BeforeLine {
    /// Pedals that the last piece left elsewhere; before the first piece, none: all seven are set.
    pub pedals: Vec<PedalLine>,
    /// Strings without discs that do not stand so yet.
    pub turned: Vec<KeyLine>,
}

/// A pedal set before a piece.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct PedalLine {
    /// The letter.
    pub pedal: String,
    /// Where the last piece left it.
    pub from: Place,
    /// Where it must stand.
    pub to: Place,
    /// As it is called there.
    pub name: String,
}

/// Everything that is told of an evening.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct EveningAnswer {
    /// Piece by piece.
    pub before: Vec<BeforeLine>,
}

/// What is done before each piece.
#[wasm_bindgen]
pub fn evening(
    ask: Ts<EveningAsk>,
    harp: Ts<HarpChoice>,
    shown: Ts<ShownChoice>,
) -> Result<Ts<EveningAnswer>, JsError> {
    let (choice, naming) = (harp.to_rust()?, shown.to_rust()?.naming());
    Ok(answer(&ask.to_rust()?, &choice, naming)?.into_ts()?)
}

pub(crate) fn answer(
    ask: &EveningAsk,
    choice: &HarpChoice,
    naming: Naming,
) -> Result<EveningAnswer, ChoiceError> {
    let (harp, harp_name) = (choice.harp()?, choice.name());
    let outlines = ask.pieces.iter();
    let outlines = outlines.map(|ends| ends.as_ref().map(outline).transpose());
    let outlines: Vec<Option<Outline>> = outlines.collect::<Result<_, _>>()?;
    let pieces = outlines.iter().map(|outline| ProgrammePiece {
        harp_name: &harp_name,
        harp: &harp,
        // one for all: the page has one
        reference: ReferencePitch::default(),
        known: outline.as_ref().map_or(Known::Nothing, Known::Outline),
    });
    let pieces: Vec<ProgrammePiece<'_>> = pieces.collect();
    let before = programme(&pieces).pieces.into_iter().map(|needs| {
        let pedals = needs.pedals.iter().filter_map(|before| {
            Some(PedalLine {
                pedal: before.letter.to_string(),
                from: before.from?.into(),
                to: before.to.into(),
                name: pedal_name(naming, before.letter, before.to),
            })
        });
        BeforeLine {
            pedals: pedals.collect(),
            turned: needs.turned.iter().map(|set| told(naming, set)).collect(),
        }
    });
    Ok(EveningAnswer {
        before: before.collect(),
    })
}

fn outline(ends: &PieceEnds) -> Result<Outline, ChoiceError> {
    let by_key = ends.discless.iter().map(|line| {
        Ok(KeySet {
            string: line.string.parse()?,
            pitch: line.pitch.parse::<SpelledPitch>()?,
            movement: line.movement.saturating_sub(1),
            // in which rest is not asked here
            in_rest_at: line.in_a_rest.then_some(0),
        })
    });
    Ok(Outline {
        by_key: by_key.collect::<Result<_, ChoiceError>>()?,
        opening: setting(ends.opening_setting),
        ending: setting(ends.ending_setting),
    })
}

fn setting(pedals: SevenPedals) -> Setting {
    let all = pedals.by_letter();
    all.into_iter().fold(
        Setting::default(),
        |all, (letter, at)| match Alteration::from_semitones(i64::from(at)) {
            Some(to) => all.with(letter, to),
            None => all,
        },
    )
}

fn told(naming: Naming, set: &KeySet) -> KeyLine {
    KeyLine {
        string: set.string.to_string(),
        pitch: set.pitch.to_string(),
        movement: set.movement + 1,
        in_a_rest: set.in_rest_at.is_some(),
        string_name: naming.string(set.string),
        pitch_name: natural_said(naming, set.pitch),
    }
}
