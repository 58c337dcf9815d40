//! The harps that can be chosen, and their strings by name.

use harp::{BUILT_IN, Harp, HarpKind, Mechanism, OpenTuning, StringName};
use pitch::{Letter, SpelledPitch};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::choice::PEDALS;
use crate::harp_choice::{HarpChoice, Kind};
use crate::shown::Voice;
use crate::shown_choice::ShownChoice;

/// Everything that can be chosen, in the reader's names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct KnownHarps {
    /// Usual compasses.
    pub compasses: Vec<Compass>,
    /// Every string from A0 to A7, for another compass.
    pub strings: Vec<NamedString>,
    /// Open tunings of lever harps, and how they are called.
    pub open: Vec<(String, String)>,
    /// The pedals in their order, and how their letters are called.
    pub pedals: Vec<(String, String)>,
    /// Notes from which an A may be taken, and how they are called.
    pub held: Vec<(String, String)>,
}

/// A usual compass.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Compass {
    /// The harp as it usually is.
    pub harp: HarpChoice,
    /// How many strings.
    pub strings: usize,
    /// Its lowest and highest string, as they are called.
    pub lowest: String,
    /// The highest.
    pub highest: String,
}

/// A string by both its names.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct NamedString {
    /// As in files.
    pub id: String,
    /// As it is called.
    pub name: String,
}

/// What can be chosen.
#[wasm_bindgen]
pub fn known_harps(shown: Ts<ShownChoice>) -> Result<Ts<KnownHarps>, JsError> {
    let voice = Voice::of(&shown.to_rust()?);
    let mut compasses = Vec::new();
    for built_in in &BUILT_IN {
        if let Some(kind) = kind(built_in.kind) {
            compasses.push(compass(&Harp::named(built_in.name)?, kind, &voice));
        }
    }
    let open = OpenTuning::ALL.into_iter().filter(|o| *o != OpenTuning::Cb);
    let letter = |l: Letter, alter: i8| {
        voice.pitch(SpelledPitch {
            letter: l,
            alter,
            octave: 4,
        })
    };
    let tonic = |o: OpenTuning| match o {
        OpenTuning::Eb => letter(Letter::E, -1),
        OpenTuning::Ab => letter(Letter::A, -1),
        OpenTuning::F => letter(Letter::F, 0),
        OpenTuning::Cb => letter(Letter::C, -1),
        OpenTuning::C => letter(Letter::C, 0),
    };
    let mut held = Vec::new();
    for name in ["A4", "A3", "Bb3", "D4", "E4", "C4"] {
        let pitch: SpelledPitch = name.parse()?;
        held.push((
            name.to_owned(),
            format!("{}{}", voice.pitch(pitch), pitch.octave),
        ));
    }
    let known = KnownHarps {
        compasses,
        strings: named(
            &Harp::between(HarpKind::Pedal, "A0".parse()?, "A7".parse()?)?,
            &voice,
        ),
        open: open.map(|o| (o.as_str().to_owned(), tonic(o))).collect(),
        pedals: PEDALS.map(|l| (l.to_string(), letter(l, 0))).to_vec(),
        held,
    };
    Ok(known.into_ts()?)
}

/// The strings of a chosen harp.
#[wasm_bindgen]
pub fn strings_of(
    choice: Ts<HarpChoice>,
    shown: Ts<ShownChoice>,
) -> Result<Vec<Ts<NamedString>>, JsError> {
    let harp = choice.to_rust()?.harp()?;
    let voice = Voice::of(&shown.to_rust()?);
    let strings = named(&harp, &voice).into_iter();
    strings.map(|s| Ok(s.into_ts()?)).collect()
}

fn kind(kind: HarpKind) -> Option<Kind> {
    match kind {
        HarpKind::Pedal => Some(Kind::Pedal),
        HarpKind::Lever => Some(Kind::Lever),
        HarpKind::Free => None,
    }
}

fn compass(harp: &Harp, kind: Kind, voice: &Voice) -> Compass {
    let names: Vec<StringName> = harp.strings().iter().map(|s| s.name).collect();
    let end = |name: Option<&StringName>| name.map(|s| voice.string(*s)).unwrap_or_default();
    let unmoved = harp
        .strings()
        .iter()
        .filter(|s| s.mechanism == Mechanism::Nothing);
    Compass {
        strings: names.len(),
        lowest: end(names.first()),
        highest: end(names.last()),
        harp: HarpChoice {
            kind,
            lowest: names.first().map(ToString::to_string).unwrap_or_default(),
            highest: names.last().map(ToString::to_string).unwrap_or_default(),
            open: (kind == Kind::Lever).then(|| "Eb".to_owned()),
            unmoved: unmoved.map(|s| s.name.to_string()).collect(),
        },
    }
}

fn named(harp: &Harp, voice: &Voice) -> Vec<NamedString> {
    let named = harp.strings().iter().map(|s| NamedString {
        id: s.name.to_string(),
        name: voice.string(s.name),
    });
    named.collect()
}
