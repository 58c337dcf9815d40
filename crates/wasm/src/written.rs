//! What the reader writes into the diary herself: a note, the air, a correction.

use std::ops::RangeInclusive;

use diary::{Air, At, Correction, Entry, Note, Now, RecordId, Writer};
use serde::{Deserialize, Serialize};
use tsify::{Ts, Tsify};
use wasm_bindgen::prelude::*;

/// Where and when it is written.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct RecordPlace {
    /// This device.
    pub device: String,
    /// The first place that it has not written.
    pub next: u64,
    /// Now, RFC 3339, UTC.
    pub at: String,
}

/// What she writes.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
#[serde(tag = "is", rename_all = "snake_case")]
#[expect(
    missing_docs,
    reason = "the fields are those of the diary's own records"
)]
pub enum Written {
    Note {
        text: String,
        harp: Option<String>,
        /// the string as files name it
        string_id: Option<String>,
    },
    Air {
        temperature_c: Option<f64>,
        humidity_percent: Option<f64>,
        harp: Option<String>,
    },
}

/// A record that was wrong, and what is true.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, Tsify)]
pub struct Corrected {
    /// The device that wrote it.
    pub device: String,
    /// Its place.
    pub seq: u64,
    /// What it should have said; none: it should not have been written.
    pub now: Option<Written>,
    /// Why; may be empty.
    pub why: String,
}

/// Where air is breathed: outside of this it was mistyped, °C.
const TEMPERATURES_C: RangeInclusive<f64> = -40.0..=60.0;
/// Relative humidity, per cent.
const HUMIDITIES: RangeInclusive<f64> = 0.0..=100.0;

/// What cannot be meant: `nothing`, `temperature`, `humidity`.
#[wasm_bindgen]
pub fn wrong_in(written: Ts<Written>) -> Result<Vec<String>, JsError> {
    let wrong = wrong(&written.to_rust()?);
    Ok(wrong.into_iter().map(str::to_owned).collect())
}

/// What she wrote, as a line of the diary.
#[wasm_bindgen]
pub fn written_line(place: Ts<RecordPlace>, written: Ts<Written>) -> Result<String, JsError> {
    let entry = entry(written.to_rust()?)?;
    line(&place.to_rust()?, &entry)
}

/// A correction, as a line of the diary; the record that was wrong stays as it is.
#[wasm_bindgen]
pub fn correction_line(
    place: Ts<RecordPlace>,
    corrected: Ts<Corrected>,
) -> Result<String, JsError> {
    let corrected = corrected.to_rust()?;
    let now = match corrected.now {
        Some(written) => Now::Entry(Box::new(entry(written)?)),
        None => Now::Withdrawn,
    };
    let of = RecordId {
        device: corrected.device.parse()?,
        seq: corrected.seq,
    };
    let why = corrected.why;
    let entry = Entry::Correction(Correction { of, now, why });
    line(&place.to_rust()?, &entry)
}

pub(crate) fn line(place: &RecordPlace, entry: &Entry) -> Result<String, JsError> {
    let at: At = place.at.parse()?;
    Ok(Writer::new(&place.device, place.next)?.line(&at, entry)?)
}

fn entry(written: Written) -> Result<Entry, JsError> {
    Ok(match written {
        Written::Note {
            text,
            harp,
            string_id,
        } => Entry::Note(Note {
            harp,
            string: string_id.map(|string| string.parse()).transpose()?,
            text: text.trim().to_owned(),
        }),
        Written::Air {
            temperature_c,
            humidity_percent,
            harp,
        } => Entry::Air(Air {
            harp,
            temperature_c,
            humidity_percent,
        }),
    })
}

fn wrong(written: &Written) -> Vec<&'static str> {
    match written {
        Written::Note { text, .. } if text.trim().is_empty() => vec!["nothing"],
        Written::Note { .. } => Vec::new(),
        Written::Air {
            temperature_c: None,
            humidity_percent: None,
            ..
        } => vec!["nothing"],
        Written::Air {
            temperature_c,
            humidity_percent,
            ..
        } => {
            let within = |value: &Option<f64>, range: &RangeInclusive<f64>| {
                value.is_none_or(|value| range.contains(&value))
            };
            let mut wrong = Vec::new();
            if !within(temperature_c, &TEMPERATURES_C) {
                wrong.push("temperature");
            }
            if !within(humidity_percent, &HUMIDITIES) {
                wrong.push("humidity");
            }
            wrong
        }
    }
}
