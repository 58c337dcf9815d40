//! What is written on the page Strings, as lines of the diary.

use diary::{
    At, Day, Entry, HarpKept, Spares, StringBroken, StringFitted, StringRemoved, Visit, Writer,
};
use harp::{Material, StringName};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

use crate::harp_choice::HarpChoice;

/// Where a record goes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct StringPlace {
    /// This device.
    pub device: String,
    /// The first place that it has not written.
    pub next: u64,
    /// Now, RFC 3339, UTC.
    pub at: String,
    /// The harp's name in the diary; none: the chosen harp's.
    pub harp: Option<String>,
    /// The harp that was chosen.
    pub choice: HarpChoice,
}

/// More or fewer spares.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct SparesWritten {
    /// Whether they are kept for any harp.
    pub for_any: bool,
    /// The string that they are for.
    pub string: Option<String>,
    /// What they are made of, in the diary's word.
    pub material: Option<String>,
    /// Their outer diameter, millimetres.
    pub gauge_mm: Option<f64>,
    /// The day they were bought.
    pub bought: Option<String>,
    /// How many more; fewer is below nought.
    pub change: i32,
}

/// What is written. Days are given where they are others than that of the record.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[serde(tag = "what", rename_all = "snake_case")]
pub enum StringWritten {
    /// The harp itself, before anything else of it.
    Harp,
    /// A string broke.
    Broken {
        /// The string.
        string: String,
        /// The day.
        on: Option<String>,
        /// Where it broke.
        place: String,
    },
    /// A string was taken off.
    Removed {
        /// The string.
        string: String,
        /// The day.
        on: Option<String>,
    },
    /// A string was put on.
    Fitted {
        /// The string.
        string: String,
        /// The day.
        on: Option<String>,
        /// What it is made of, in the diary's word.
        material: Option<String>,
        /// Its outer diameter, millimetres.
        gauge_mm: Option<f64>,
        /// Whether it was played on before.
        used: bool,
        /// Who put it on.
        by: String,
    },
    /// More or fewer spares.
    Spares(SparesWritten),
    /// The technician came.
    Visit {
        /// The day.
        on: Option<String>,
        /// Who came.
        who: String,
        /// What was done.
        done: String,
        /// What else she wrote.
        note: String,
    },
}

/// Why it cannot be written.
#[derive(Debug, thiserror::Error)]
enum WriteError {
    #[error(transparent)]
    Choice(#[from] crate::harp_choice::ChoiceError),
    #[error(transparent)]
    String(#[from] harp::StringNameError),
    #[error(transparent)]
    Day(#[from] diary::DayError),
    #[error("'{0}' is no material")]
    Material(String),
}

/// A line of the diary.
#[wasm_bindgen]
pub fn string_line(place: Ts<StringPlace>, what: Ts<StringWritten>) -> Result<String, JsError> {
    let place = place.to_rust()?;
    let at: At = place.at.parse()?;
    let entry = entry(&place, what.to_rust()?)?;
    Ok(Writer::new(&place.device, place.next)?.line(&at, &entry)?)
}

fn entry(place: &StringPlace, what: StringWritten) -> Result<Entry, WriteError> {
    let harp = place.harp.clone().unwrap_or_else(|| place.choice.name());
    Ok(match what {
        StringWritten::Harp => {
            let toml = place.choice.harp()?.to_toml();
            Entry::Harp(HarpKept { harp, toml })
        }
        StringWritten::Broken { string, on, place } => Entry::StringBroken(StringBroken {
            harp,
            string: string.parse()?,
            on: day(on)?,
            place,
        }),
        StringWritten::Removed { string, on } => Entry::StringRemoved(StringRemoved {
            harp,
            string: string.parse()?,
            on: day(on)?,
        }),
        StringWritten::Fitted {
            string,
            on,
            material: of,
            gauge_mm,
            used,
            by,
        } => Entry::StringFitted(StringFitted {
            harp,
            string: string.parse()?,
            on: day(on)?,
            material: material(of)?,
            gauge_mm,
            used,
            by,
        }),
        StringWritten::Spares(told) => spares(harp, told)?,
        StringWritten::Visit {
            on,
            who,
            done,
            note,
        } => Entry::Visit(Visit {
            harp,
            on: day(on)?,
            who,
            done,
            note,
        }),
    })
}

fn spares(harp: String, told: SparesWritten) -> Result<Entry, WriteError> {
    let string: Option<StringName> = told.string.map(|s| s.parse()).transpose()?;
    Ok(Entry::Spares(Spares {
        harp: (!told.for_any).then_some(harp),
        string,
        material: material(told.material)?,
        gauge_mm: told.gauge_mm,
        bought: day(told.bought)?,
        change: i64::from(told.change),
    }))
}

fn day(text: Option<String>) -> Result<Option<Day>, WriteError> {
    Ok(text.map(|text| text.parse()).transpose()?)
}

fn material(name: Option<String>) -> Result<Option<Material>, WriteError> {
    let known = |name: String| Material::from_name(&name).ok_or(WriteError::Material(name));
    name.map(known).transpose()
}
